import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Sentence } from "../answer.ts";
import { rulesClause } from "../answering/failure-words.ts";
import { counted, percent, percentRange, pValue } from "../answering/wording.ts";
import {
  effectWords,
  type FittedEffects,
  silentWords,
  termNames,
} from "../modelling/model-effects.ts";
import { penaltyWords } from "../modelling/penalty-words.ts";
import type { RiskFit } from "./fit-risk.ts";

/** What the model says, whole: terms, their joint test, and how well it tells eyes apart. */
export function riskSentence(
  fit: RiskFit,
  fitted: FittedEffects,
  { record, window }: { readonly record: EyeRecord; readonly window: TimeWindow | undefined },
): Sentence {
  const { data, failures, overall } = fit;
  const when = window === undefined ? "" : ` within ${window.text}`;
  const known = window === undefined ? "" : ` whose outcome at ${window.text} is known`;
  return [
    `Logistic model on ${termNames(data)} of `,
    { text: counted(data.eyes.length, "eye"), pick: "model:all" },
    `${known}, `,
    { text: `${failures} failed`, role: "failed", pick: "model:failed" },
    `${when}: ${effectWords(fitted)}. All terms together: ${overall.name}, chi-square ` +
      `${overall.statistic.toFixed(2)} on ${counted(overall.degreesOfFreedom, "degree")} of freedom, ` +
      `${pValue(overall.pValue)}.`,
    ...accuracyClause(fit),
    ...penaltyClause(fit, fitted),
    silentWords(data),
    ...rulesClause(record),
  ];
}

/** "Logistic model of 290 eyes, 71 failed: c-statistic 58.5%; all terms together p = 0.29 (…)." */
export function riskBrief({ data, failures, roc, overall }: RiskFit): Sentence {
  const ranks = roc === null ? "" : `c-statistic ${percent(roc.estimate)}; `;
  return [
    `Logistic model of ${counted(data.eyes.length, "eye")}, ${failures} failed: ${ranks}all terms ` +
      `together ${pValue(overall.pValue)} (${overall.name}).`,
  ];
}

function accuracyClause({ roc, brier }: RiskFit): Sentence {
  if (roc === null || brier === null) return [];
  return [
    ` Of a failed eye and one that did not, it ranks the failed one higher in ${percent(roc.estimate)} ` +
      `(c-statistic, 95% ${roc.method} interval ${percentRange(roc)}); ` +
      `Brier score ${brier.score.toFixed(3)}, where the overall share for every eye would have ` +
      `${brier.uncertainty.toFixed(3)}.`,
  ];
}

function penaltyClause(fit: RiskFit, fitted: FittedEffects): Sentence {
  if (!fit.isPenalised) return [];
  const otherwise = fit.isFew ? "Failures are few for so many columns" : null;
  return penaltyWords({ ...fitted, infinite: fit.infinite, otherwise });
}
