import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Answer, AnswerCell, FigureRecord, Sentence } from "../answer.ts";
import { leftOutOf, PickBook, pickRecord } from "../answering/answered-eyes.ts";
import {
  clusteredIntervals,
  comparingPeople,
  manyLeftOut,
  pairedEyes,
  smallNumbers,
  techniquesChosen,
  undecidedCensored,
  whatWasAssumed,
} from "../answering/cautions.ts";
import { effectFigures, pCell } from "../answering/effect-cells.ts";
import { rulesClause } from "../answering/failure-words.ts";
import { openedReason } from "../answering/opened-reason.ts";
import { timesNeeded } from "../answering/timed.ts";
import { windowOf } from "../answering/window.ts";
import { count, counted, percent, percentRange, pValue } from "../answering/wording.ts";
import { termsParameter } from "../modelling/bound-term.ts";
import {
  fewEyesInLevels,
  fewFailuresPerColumn,
  fewPatientsBehind,
  hazardsNotProportional,
  modelIsNotCause,
} from "../modelling/model-cautions.ts";
import { columnsInWords, modelData } from "../modelling/model-data.ts";
import {
  drawnEffects,
  effectsFigures,
  effectsTable,
  effectWords,
  type FittedEffects,
  silentCount,
  silentWords,
  termNames,
} from "../modelling/model-effects.ts";
import { penaltyWords } from "../modelling/penalty-words.ts";
import { eyesGiven, eyesParameter, question, type Worked, withinParameter } from "../question.ts";
import { fitHazards, type HazardFit } from "./fit-hazards.ts";

/**
 * What goes with failing sooner? Cox's proportional-hazards model (1972), Efron's ties, errors
 * clustered by patient where patients give two eyes (Lin and Wei 1989), the Grambsch–Therneau check
 * of proportional hazards, and the concordance. Eyes on which a term is not recorded are left out
 * and counted; a level in which none failed has Firth's penalised estimate, which is said. Numbers
 * count per unit, groups against the commonest one.
 */
export const hazardModel = question(
  {
    name: "hazard_model",
    meaning: "Cox model: what goes with failing sooner, all terms at once",
    asks: "What goes with failing sooner?",
    example: "hazard_model(eyes, age, technique, pvr_grade)",
    parameters: [eyesParameter, { ...withinParameter, byNameOnly: true }, termsParameter],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const untimed = timesNeeded(record, given);
  if (untimed.length > 0) return { problems: untimed };
  const windowed = windowOf(record, given);
  if ("problems" in windowed) return windowed;
  const all = Array.from(record.time, (_, eye) => eye);
  const found = modelData(record, all, given);
  if ("problems" in found) return found;
  const until = windowed.window?.length ?? Number.POSITIVE_INFINITY;
  const hasFailed = (eye: number): boolean =>
    record.event[eye] === 1 && (record.time[eye] ?? 0) <= until;
  const time = (eye: number): number => Math.min(record.time[eye] ?? 0, until);
  const fitted = fitHazards(found.data, { time, hasFailed }, given);
  if ("problems" in fitted) return fitted;
  return answer(fitted.fit, { record, window: windowed.window, hasFailed });
}

interface Shown {
  readonly record: EyeRecord;
  readonly window: TimeWindow | undefined;
  readonly hasFailed: (eye: number) => boolean;
}

function answer(fit: HazardFit, shown: Shown): Worked {
  const { record } = shown;
  const { data } = fit;
  const picks = new PickBook();
  const fitted = fittedEffects(fit, shown);
  const failed = data.eyes.filter(shown.hasFailed);
  picks.add("model:failed", "eyes of the model, failed", failed);
  picks.add("model:all", "eyes of the model", data.eyes);
  const leftOut = [
    ...leftOutOf(record),
    ...data.silent.map((silent, i) => openedReason(picks, { key: `silent${i}`, ...silent })),
  ];
  return {
    answered: {
      answer: {
        question: "hazard_model",
        asks: "What goes with failing sooner?",
        sentence: hazardSentence(fit, fitted, shown),
        brief: hazardBrief(fit),
        table: effectsTable(fitted, picks),
        chart: { draw: "effects", effects: drawnEffects(fitted) },
        cautions: cautionsOf(fit, record, leftOut),
        unit: "eyes",
        used: data.eyes.length,
        leftOut,
        figures: figuresOf(fit, fitted),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function fittedEffects(fit: HazardFit, { hasFailed }: Shown): FittedEffects {
  const { proportional, data, effects } = fit;
  const cell = (position: number): AnswerCell => {
    const name = data.names[position];
    return pCell(proportional?.covariates.find((each) => each.name === name)?.pValue ?? null);
  };
  return {
    data,
    effects,
    hasFailed,
    measure: "hazard ratio",
    test: fit.isPenalised ? "penalised likelihood ratio" : "Wald",
    ...(proportional === null
      ? {}
      : { beside: { label: "p (same at all times, Grambsch–Therneau)", cell } }),
  };
}

function hazardSentence(
  fit: HazardFit,
  fitted: FittedEffects,
  { record, window }: Shown,
): Sentence {
  const { data, failures, overall, concordance } = fit;
  const when = window === undefined ? "" : ` within ${window.text}`;
  const ranks =
    concordance === null
      ? ""
      : ` Of two eyes it ranks the one that fails first higher in ${percent(concordance.estimate)} ` +
        `(concordance, 95% interval ${percentRange(concordance)}, ${concordance.method}).`;
  return [
    "Cox model on ",
    `${termNames(data)} of `,
    { text: counted(data.eyes.length, "eye"), pick: "model:all" },
    ", ",
    { text: `${failures} failed`, role: "failed", pick: "model:failed" },
    `${when}: ${effectWords(fitted)}. All terms together: ${overall.name}, chi-square ` +
      `${overall.statistic.toFixed(2)} on ${counted(overall.degreesOfFreedom, "degree")} of freedom, ` +
      `${pValue(overall.pValue)}.${ranks}`,
    ...penaltyClause(fit, fitted),
    silentWords(data),
    ...rulesClause(record),
  ];
}

/** "Cox model of 506 eyes, 71 failed: all terms together p = 0.12 (Wald test, robust by patient)." */
function hazardBrief({ data, failures, overall }: HazardFit): Sentence {
  return [
    `Cox model of ${counted(data.eyes.length, "eye")}, ${count(failures)} failed: all terms ` +
      `together ${pValue(overall.pValue)} (${overall.name}).`,
  ];
}

function penaltyClause({ isPenalised, infinite }: HazardFit, fitted: FittedEffects): Sentence {
  if (!isPenalised) return [];
  return penaltyWords({ ...fitted, infinite, otherwise: "The ordinary fit comes to no end" });
}

function figuresOf(fit: HazardFit, fitted: FittedEffects): FigureRecord {
  const { data, failures, overall, concordance, proportional } = fit;
  return {
    eyes: data.eyes.length,
    eyes_without_terms: silentCount(data),
    failed: failures,
    headline: `${failures} of ${data.eyes.length}`,
    columns: data.columns.length,
    failures_per_column: failures / data.columns.length,
    method: fit.isPenalised ? "Cox, Firth" : "Cox, Efron",
    clustered: data.cluster !== undefined && !fit.isPenalised,
    overall_test: overall.name,
    overall_chi_square: overall.statistic,
    overall_df: overall.degreesOfFreedom,
    overall_p: overall.pValue,
    ...effectFigures("concordance", concordance),
    proportional_hazards_p: proportional?.global.pValue ?? null,
    terms: effectsFigures(fitted),
  };
}

function cautionsOf(
  { data, failures, proportional, isPenalised, thin }: HazardFit,
  record: EyeRecord,
  leftOut: Answer["leftOut"],
): Answer["cautions"] {
  const worst = [...(proportional?.covariates ?? [])].sort((a, b) => a.pValue - b.pValue)[0];
  const changing =
    worst === undefined ? "" : `The hazard ratio of ${columnsInWords(data, [worst.name])}`;
  const isClustered = data.cluster !== undefined && !isPenalised;
  return [
    ...fewFailuresPerColumn(failures, data.columns.length),
    ...smallNumbers([{ label: "the model", failed: failures, eyes: data.eyes.length }]),
    ...fewEyesInLevels(data),
    ...fewPatientsBehind(columnsInWords(data, thin)),
    ...hazardsNotProportional(worst?.pValue ?? null, changing),
    ...modelIsNotCause(),
    ...techniquesChosen(data.by),
    ...comparingPeople(data.by),
    ...undecidedCensored(record),
    ...whatWasAssumed(record, data.by),
    ...manyLeftOut(leftOut, data.eyes.length),
    ...pairedEyes(record, isClustered ? clusteredIntervals : undefined),
  ];
}
