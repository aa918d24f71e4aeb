import type { FigureRecord } from "../../answer.ts";
import { effectFigures } from "../../answering/effect-cells.ts";
import { chanceToNotice, doubling } from "../enough-line.ts";
import type { ComparisonParts } from "./observed-expected-parts.ts";
import type { PersonResult } from "./person-result.ts";

/** The numbers by name; of one person where one was asked for, else of all with a list of people. */
export function comparisonFigures(parts: ComparisonParts): FigureRecord {
  const { judged, people, mine, standard, model, all } = parts;
  const [own] = people;
  const failed = judged.known.filter(judged.hasFailed).length;
  const alone = mine === undefined || own === undefined ? undefined : own;
  return {
    eyes: judged.known.length,
    failed,
    rate: judged.known.length === 0 ? null : failed / judged.known.length,
    headline:
      alone === undefined
        ? `${failed} of ${judged.known.length}`
        : `${alone.failedEyes.length} of ${alone.judged.known.length}`,
    headline_rate: alone === undefined ? standard : alone.rate,
    within: judged.window?.text ?? null,
    not_known: judged.unknown.length,
    too_recent: judged.tooRecent.length,
    standard,
    people: all,
    beta_binomial_mean: model?.mean ?? null,
    intraclass: model?.intraclass ?? null,
    beta_binomial_alpha: finite(model?.alpha),
    beta_binomial_beta: finite(model?.beta),
    beta_binomial_p: model?.pValue ?? null,
    ...(alone === undefined
      ? {
          groups: people.map((person) => ({
            group: person.label,
            ...personFigures(person, parts),
          })),
        }
      : personFigures(alone, parts)),
  };
}

function personFigures(person: PersonResult, { standard }: ComparisonParts): FigureRecord {
  const { judged, failedEyes, rate, interval, ratio, observed, shrunken, risks } = person;
  return {
    own_eyes: judged.known.length,
    own_failed: failedEyes.length,
    own_rate: rate,
    own_lower: interval?.lower ?? null,
    own_upper: interval?.upper ?? null,
    own_not_known: judged.unknown.length,
    observed: ratio === null ? null : observed,
    expected: ratio?.expected ?? null,
    mean_risk: person.meanRisk,
    ...effectFigures("ratio", ratio),
    ratio_interval: ratio?.method ?? null,
    p: ratio?.p ?? null,
    ...effectFigures("adjusted", person.adjusted),
    shrunken: shrunken?.shrunken ?? null,
    shrunken_lower: shrunken?.limits?.lower ?? null,
    shrunken_upper: shrunken?.limits?.upper ?? null,
    worst_quarter: person.worstQuarter,
    chance_to_notice: chanceToNotice(judged.known.length, doubling(standard)),
    expected_from_eyes: risks?.basis?.eyes ?? null,
    expected_from_failures: risks?.basis?.failures ?? null,
    penalised: risks === undefined ? null : (risks.model?.isPenalised ?? false),
  };
}

function finite(value: number | undefined): number | null {
  return value !== undefined && Number.isFinite(value) ? value : null;
}
