import type { GivenArguments } from "../../../formula/vocabulary.ts";
import type { Caution } from "../../answer.ts";
import { smallNumbers, techniquesChosen } from "../../answering/cautions.ts";
import { question, textGiven, type Worked } from "../../question.ts";
import {
  byColumnParameter,
  departmentsGiven,
  departmentsParameter,
  pooledGroup,
  pooledGroups,
} from "../departments.ts";
import {
  definitionWords,
  independentEyes,
  pooledAnswer,
  withheldCaution,
} from "../pooled-answer.ts";
import { sumOf } from "../pooled-counts.ts";
import { type PooledRateParts, pooledRateSentence } from "./pooled-rate-sentence.ts";
import { drawnRates, pooledRateFigures, pooledRateTable } from "./pooled-rate-table.ts";
import { leadingRate, type PooledRate, rateOver } from "./rate-over.ts";

/**
 * How often did it fail over all departments? Where outcomes are not known it leads with the curve's
 * estimate at the window's end; the share of those known stands beside it, with its interval and with
 * the rate if none, and if all, of the others had failed. From counts alone; with bounds where counts
 * are withheld. Whether departments differ more than chance explains: chi-square with I².
 */
export const pooledRate = question(
  {
    name: "pooled_rate",
    meaning: "how often it failed over several departments, from their aggregates",
    asks: "How often did it fail, over all departments?",
    example: 'pooled_rate(departments, by: "technique")',
    parameters: [departmentsParameter, byColumnParameter],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const files = departmentsGiven(given);
  const found = pooledGroups(files, given);
  if ("problems" in found) return found;
  const column = textGiven<string>(given, "by", "");
  const total = rateOver(pooledGroup(files, "all eyes", []));
  const parts: PooledRateParts = {
    ...{ total, column, departments: files.length, definition: definitionWords(files) },
    groups: column === "" ? [] : found.groups.map(rateOver),
  };
  return pooledAnswer(
    files,
    {
      question: "pooled_rate",
      asks: pooledRate.asks,
      sentence: pooledRateSentence(parts),
      table: pooledRateTable(parts),
      chart: { draw: "intervals", intervals: drawnRates(parts) },
      figures: pooledRateFigures(parts),
    },
    { used: sumOf(total.group.parts, "eyes"), cautions: cautionsOf(parts) },
  );
}

function cautionsOf({ total, groups, column }: PooledRateParts): Caution[] {
  const rates = [...groups, total];
  const sizes = rates.map(({ label, group }) => ({
    label,
    failed: sumOf(group.parts, "failed").least,
    eyes: sumOf(group.parts, "eyes").least,
  }));
  return [
    ...smallNumbers(sizes),
    ...techniquesChosen(column === "" ? [] : [column]),
    ...withheldCaution(rates.some(isBounded)),
    ...(rates.every(isClustered) ? [] : [independentEyes]),
  ];
}

function isBounded(rate: PooledRate): boolean {
  const leading = leadingRate(rate);
  return rate.lowest !== rate.highest || leading?.lowest !== leading?.highest;
}

/** The curve holds no patient, so only a rate that leads with the share of those known is clustered. */
function isClustered(rate: PooledRate): boolean {
  const leading = leadingRate(rate);
  return leading !== null && !leading.isByCurve && leading.method.includes("effective number");
}
