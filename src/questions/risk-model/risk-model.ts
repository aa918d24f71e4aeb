import type { ChartRequest } from "../../charts/chart-request.ts";
import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { outcomeAt } from "../../outcomes/outcome-at.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Answer, FigureRecord, LeftOut } from "../answer.ts";
import { leftOutOf, PickBook, pickRecord } from "../answering/answered-eyes.ts";
import {
  comparingPeople,
  earlyVisits,
  manyLeftOut,
  manyNotKnown,
  pairedEyes,
  smallNumbers,
  techniquesChosen,
  whatWasAssumed,
} from "../answering/cautions.ts";
import { effectFigures } from "../answering/effect-cells.ts";
import { openedReason } from "../answering/opened-reason.ts";
import { toleranceGiven, windowOf } from "../answering/window.ts";
import { termsParameter } from "../modelling/bound-term.ts";
import {
  fewEyesInLevels,
  fewFailuresPerColumn,
  fewPatientsBehind,
  judgedOnOwnEyes,
  modelIsNotCause,
  poorlyCalibrated,
} from "../modelling/model-cautions.ts";
import { columnsInWords, modelData } from "../modelling/model-data.ts";
import {
  drawnEffects,
  effectsFigures,
  effectsTable,
  type FittedEffects,
} from "../modelling/model-effects.ts";
import {
  eyesGiven,
  eyesParameter,
  question,
  textGiven,
  type Worked,
  withinParameter,
} from "../question.ts";
import { fitMethods, fitRisk, type RiskFit } from "./fit-risk.ts";
import {
  calibrationDrawing,
  calibrationFigures,
  calibrationTable,
  smoothedFigures,
} from "./risk-calibration.ts";
import { riskBrief, riskSentence } from "./risk-sentence.ts";

const shows = ["odds ratios", "calibration"] as const;

/**
 * What goes with failing? Logistic regression among eyes whose outcome at the window is known:
 * maximum likelihood with profile limits, or Firth's penalised likelihood (1993) where failures are
 * fewer than ten a column or a column tells the outcome apart; the c-statistic with score
 * limits (Newcombe 2006), the Brier score in its parts (Murphy 1973), and calibration over groups of
 * predicted risk (Hosmer and Lemeshow 1980) and as a smooth curve.
 */
export const riskModel = question(
  {
    name: "risk_model",
    meaning: "logistic model: what goes with failing, how well it tells eyes apart",
    asks: "What goes with failing?",
    example: "risk_model(eyes, age, technique, pvr_grade)",
    parameters: [
      eyesParameter,
      { ...withinParameter, byNameOnly: true },
      choice("method", "how the model is fitted", fitMethods),
      choice("show", "what table and chart show", shows),
      {
        name: "tolerance",
        meaning: "how early the visit that ends the window may come",
        takes: "value",
        kinds: ["duration"],
        required: false,
        whenLeftOut: "0 days",
        byNameOnly: true,
      },
      termsParameter,
    ],
  },
  work,
);

function choice(name: string, meaning: string, choices: readonly string[]): Parameter {
  return {
    name,
    meaning,
    takes: "value",
    kinds: ["text"],
    required: false,
    choices,
    whenLeftOut: `"${choices[0]}"`,
    byNameOnly: true,
  };
}

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const windowed = windowOf(record, given);
  if ("problems" in windowed) return windowed;
  const tolerance = toleranceGiven(record, given);
  const at = {
    ...(windowed.window === undefined ? {} : { time: windowed.window.length }),
    tolerance,
  };
  const all = Array.from(record.time, (_, eye) => eye);
  const outcome = all.map((eye) => outcomeAt(record, eye, at));
  const found = modelData(
    record,
    all.filter((eye) => outcome[eye] !== "not known"),
    given,
  );
  if ("problems" in found) return found;
  const hasFailed = (eye: number): boolean => outcome[eye] === "failed";
  const method = textGiven(given, "method", fitMethods[0]);
  const fitted = fitRisk(found.data, hasFailed, { method, given });
  if ("problems" in fitted) return fitted;
  return answer(fitted.fit, {
    record,
    window: windowed.window,
    tolerance,
    hasFailed,
    unknown: all.filter((eye) => outcome[eye] === "not known"),
    show: textGiven(given, "show", shows[0]),
  });
}

interface Shown {
  readonly record: EyeRecord;
  readonly window: TimeWindow | undefined;
  readonly tolerance: number;
  readonly hasFailed: (eye: number) => boolean;
  readonly unknown: readonly number[];
  readonly show: (typeof shows)[number];
}

function answer(fit: RiskFit, shown: Shown): Worked {
  const { record } = shown;
  const { data } = fit;
  const picks = new PickBook();
  const fitted: FittedEffects = {
    data,
    effects: fit.effects,
    hasFailed: shown.hasFailed,
    measure: "odds ratio",
    test: fit.isPenalised ? "penalised likelihood ratio" : "Wald",
  };
  picks.add("model:all", "eyes of the model", data.eyes);
  picks.add("model:failed", "eyes of the model, failed", data.eyes.filter(shown.hasFailed));
  const silent = data.silent.map((each, i) => openedReason(picks, { key: `silent${i}`, ...each }));
  const unrecorded = [...leftOutOf(record), ...silent];
  const reason = `outcome${shown.window === undefined ? "" : ` at ${shown.window.text}`} not known`;
  const unknown =
    shown.unknown.length === 0
      ? []
      : [openedReason(picks, { key: "unknown", reason, eyes: shown.unknown })];
  return {
    answered: {
      answer: {
        question: "risk_model",
        asks: "What goes with failing?",
        sentence: riskSentence(fit, fitted, shown),
        brief: riskBrief(fit),
        ...tableAndChart(fit, fitted, { show: shown.show, picks }),
        cautions: cautionsOf(fit, shown, unrecorded),
        unit: "eyes",
        used: data.eyes.length,
        leftOut: [...unrecorded, ...unknown],
        figures: figuresOf(fit, fitted),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function tableAndChart(
  fit: RiskFit,
  fitted: FittedEffects,
  { show, picks }: { show: Shown["show"]; picks: PickBook },
): { readonly table: Answer["table"]; readonly chart: ChartRequest } {
  if (show === "calibration") {
    return {
      table: calibrationTable(fit, picks),
      chart: { draw: "calibration", calibration: calibrationDrawing(fit, picks) },
    };
  }
  return {
    table: effectsTable(fitted, picks),
    chart: { draw: "effects", effects: drawnEffects(fitted) },
  };
}

function figuresOf(fit: RiskFit, fitted: FittedEffects): FigureRecord {
  const { data, failures, overall, roc, brier, calibration } = fit;
  return {
    eyes: data.eyes.length,
    failed: failures,
    headline: `${failures} of ${data.eyes.length}`,
    columns: data.columns.length,
    failures_per_column: failures / data.columns.length,
    method: fit.isPenalised ? "logistic, Firth" : "logistic, maximum likelihood",
    clustered: data.cluster !== undefined && !fit.isPenalised,
    overall_test: overall.name,
    overall_chi_square: overall.statistic,
    overall_df: overall.degreesOfFreedom,
    overall_p: overall.pValue,
    ...effectFigures("c_statistic", roc),
    brier: brier?.score ?? null,
    brier_scaled: brier === null ? null : 1 - brier.score / brier.uncertainty,
    brier_reliability: brier?.reliability ?? null,
    brier_resolution: brier?.resolution ?? null,
    brier_uncertainty: brier?.uncertainty ?? null,
    hosmer_lemeshow: calibration?.statistic ?? null,
    hosmer_lemeshow_df: calibration?.degreesOfFreedom ?? null,
    hosmer_lemeshow_p: calibration?.pValue ?? null,
    calibration: calibrationFigures(fit),
    ...smoothedFigures(fit),
    terms: effectsFigures(fitted),
  };
}

const robustRatios =
  "the odds ratios and the observed shares allow for it (clustered by patient); the calibration test treats eyes as independent";

function cautionsOf(
  { data, failures, calibration, isPenalised, thin }: RiskFit,
  { record, unknown, window, tolerance }: Shown,
  leftOut: readonly LeftOut[],
): Answer["cautions"] {
  const eyes = data.eyes.length;
  const rarer = Math.min(failures, eyes - failures);
  const isRobust = data.cluster !== undefined && !isPenalised;
  return [
    ...fewFailuresPerColumn(rarer, data.columns.length),
    ...smallNumbers([{ label: "the model", failed: failures, eyes }]),
    ...fewEyesInLevels(data),
    ...fewPatientsBehind(columnsInWords(data, thin)),
    ...poorlyCalibrated(calibration?.pValue ?? null),
    ...judgedOnOwnEyes(),
    ...modelIsNotCause(),
    ...techniquesChosen(data.by),
    ...comparingPeople(data.by),
    ...manyNotKnown(record, unknown.length, record.time.length),
    ...earlyVisits(record, { window, tolerance }),
    ...whatWasAssumed(record, data.by),
    ...manyLeftOut(leftOut, eyes),
    ...pairedEyes(record, isRobust ? robustRatios : undefined),
  ];
}
