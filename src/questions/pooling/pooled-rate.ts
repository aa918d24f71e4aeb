import type { GivenArguments } from "../../formula/vocabulary.ts";
import { chiSquareTest } from "../../statistics/chi-square-test.ts";
import { clusteredProportion } from "../../statistics/clustered-proportion.ts";
import type { Interval } from "../../statistics/interval.ts";
import { wilsonInterval } from "../../statistics/wilson-interval.ts";
import type { AnswerCell, FigureRecord, Sentence } from "../answer.ts";
import { smallNumbers, techniquesChosen } from "../answering/cautions.ts";
import { counted, percentRange, pValue } from "../answering/wording.ts";
import { question, textGiven, type Worked } from "../question.ts";
import {
  byColumnParameter,
  departmentsGiven,
  departmentsParameter,
  type PooledGroup,
  pooledGroups,
} from "./departments.ts";
import {
  boundsCell,
  boundsText,
  definitionWords,
  independentEyes,
  pooledAnswer,
  shareText,
  withheldCaution,
} from "./pooled-answer.ts";
import { exactCounts, rateCorners, sumOf } from "./pooled-counts.ts";

/**
 * How often did it fail over all departments? Failures among eyes whose outcome at the window is
 * known, from counts alone; with bounds where counts are withheld. Whether departments differ more
 * than chance explains: chi-square with I² (Higgins and Thompson, Statistics in Medicine 2002;21:1539).
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

/** A rate over departments: its corners, and the interval that holds them both. */
export interface PooledRate {
  readonly label: string;
  readonly group: PooledGroup;
  readonly lowest: number | null;
  readonly highest: number | null;
  readonly interval: Interval | null;
  readonly heterogeneity: {
    readonly p: number;
    readonly df: number;
    readonly iSquared: number;
  } | null;
}

function work(given: GivenArguments): Worked {
  const files = departmentsGiven(given);
  const found = pooledGroups(files, given);
  if ("problems" in found) return found;
  const column = textGiven<string>(given, "by", "");
  const rates = found.groups.map(rateOver);
  const total = rateOver(allEyes(given));
  const rows = column === "" ? [total] : [...rates, total];
  const isBounded = rows.some(({ lowest, highest }) => lowest !== highest);
  const sizes = rows.map(({ label, group }) => ({
    label,
    failed: sumOf(group.parts, "failed").least,
    eyes: sumOf(group.parts, "eyes").least,
  }));
  return pooledAnswer(
    files,
    {
      question: "pooled_rate",
      asks: pooledRate.asks,
      sentence: sentenceOf(total, files.length, definitionWords(files)),
      table: {
        columns: [
          { label: column === "" ? "eyes" : column.replaceAll("_", " "), kind: "text" },
          { label: "all eyes", kind: "number" },
          { label: "failed", kind: "number" },
          { label: "not known", kind: "number" },
          { label: "failed of known", kind: "text" },
          { label: "95%", kind: "interval" },
          { label: "between departments", kind: "text" },
        ],
        rows: rows.map(rowOf),
      },
      chart: {
        draw: "intervals",
        intervals: { tone: "failed", counted: "failed", rows: rows.map(drawnRate) },
      },
      figures: {
        ...figuresOf(total),
        headline: `${boundsText(sumOf(total.group.parts, "failed"))} of ${boundsText(sumOf(total.group.parts, "eyes"))}`,
        ...(column === ""
          ? {}
          : { groups: rates.map((rate) => ({ group: rate.label, ...figuresOf(rate) })) }),
      },
    },
    {
      used: sumOf(total.group.parts, "eyes"),
      cautions: [
        ...smallNumbers(sizes),
        ...techniquesChosen(column === "" ? [] : [column]),
        ...withheldCaution(isBounded),
        ...(rows.every(isClustered) ? [] : [independentEyes]),
      ],
    },
  );
}

function allEyes(given: GivenArguments): PooledGroup {
  const values = new Map([...given.values].filter(([name]) => name !== "by"));
  const found = pooledGroups(departmentsGiven(given), { ...given, values });
  if ("problems" in found || found.groups[0] === undefined)
    throw new Error("there is no group of all eyes");
  return found.groups[0];
}

export function rateOver(group: PooledGroup): PooledRate {
  const corners = rateCorners(group.parts);
  const { lowest, highest } = corners;
  const share = ({ failed, total }: typeof lowest) => (total === 0 ? null : failed / total);
  return {
    label: group.label,
    group,
    lowest: share(lowest),
    highest: share(highest),
    interval: clusteredOver(group) ?? intervalOf(corners),
    heterogeneity: heterogeneityOf(group),
  };
}

function intervalOf({ lowest, highest }: ReturnType<typeof rateCorners>): Interval | null {
  const low = wilsonInterval(lowest.failed, lowest.total);
  const high = wilsonInterval(highest.failed, highest.total);
  return low === null || high === null ? null : { ...low, upper: high.upper };
}

/**
 * Allowing for two eyes of a patient where every department tells how many patients have both eyes
 * known and how they fared: single eyes and pairs are then all that the ratio estimator needs.
 */
function clusteredOver({ parts }: PooledGroup): Interval | null {
  const exact = exactCounts(rateCorners(parts));
  const pairs = parts.map(({ group }) => group?.pairs);
  if (exact === undefined || exact.total === 0 || !pairs.every((each) => each !== undefined))
    return null;
  const sum = (name: "none" | "one" | "both") => pairs.reduce((all, each) => all + each[name], 0);
  const [none, one, both] = [sum("none"), sum("one"), sum("both")];
  if (none + one + both === 0) return null;
  const single = {
    failed: exact.failed - one - 2 * both,
    total: exact.total - 2 * (none + one + both),
  };
  const failed: number[] = [];
  const patient: number[] = [];
  const add = (patients: number, outcomes: readonly number[]) => {
    for (let each = 0; each < patients; each++) {
      const number = (patient.at(-1) ?? 0) + 1;
      for (const outcome of outcomes) {
        failed.push(outcome);
        patient.push(number);
      }
    }
  };
  add(single.failed, [1]);
  add(single.total - single.failed, [0]);
  add(none, [0, 0]);
  add(one, [0, 1]);
  add(both, [1, 1]);
  return clusteredProportion(failed, patient);
}

function isClustered({ interval }: PooledRate): boolean {
  return interval?.method.includes("effective number") === true;
}

function heterogeneityOf({ parts }: PooledGroup): PooledRate["heterogeneity"] {
  const tables = parts.map((part) => exactCounts(rateCorners([part])));
  if (!tables.every((each) => each !== undefined)) return null;
  const test = chiSquareTest(tables.map(({ failed, total }) => [failed, total - failed]));
  const { statistic, degreesOfFreedom: df, pValue: p } = test;
  if (df === 0) return null;
  return { p, df, iSquared: statistic <= df ? 0 : (statistic - df) / statistic };
}

function heterogeneityText({ heterogeneity }: PooledRate): string {
  if (heterogeneity === null) return "–";
  return `${pValue(heterogeneity.p)}, I² ${(100 * heterogeneity.iSquared).toFixed(0)}%`;
}

function sentenceOf(total: PooledRate, departments: number, definition: string): Sentence {
  const { parts } = total.group;
  const rate = shareText(total.lowest, total.highest);
  const { interval } = total;
  const failed = boundsText(sumOf(parts, "failed"));
  const limits =
    interval === null ? "" : ` (95% ${interval.method} interval ${percentRange(interval)})`;
  const apart =
    total.heterogeneity === null
      ? "whether departments differ cannot be tested"
      : `between departments ${heterogeneityText(total)}`;
  return [
    `Over ${counted(departments, "department")} and ${boundsText(sumOf(parts, "eyes"))} eyes, `,
    { text: `${failed} failed`, role: "failed" },
    ` (${definition}): ${rate} of those known${limits}; ${apart}. `,
    `The outcome of ${boundsText(sumOf(parts, "unknown"))} eyes is not known.`,
  ];
}

function rowOf(rate: PooledRate): AnswerCell[] {
  const { parts } = rate.group;
  const shown = shareText(rate.lowest, rate.highest);
  const { interval } = rate;
  return [
    { text: rate.label, value: rate.label },
    boundsCell(sumOf(parts, "eyes")),
    boundsCell(sumOf(parts, "failed")),
    boundsCell(sumOf(parts, "unknown")),
    { text: shown, value: rate.lowest === rate.highest ? rate.lowest : null },
    interval === null
      ? { text: "–", value: null }
      : {
          text: percentRange(interval),
          value: null,
          limits: { lower: interval.lower, upper: interval.upper },
        },
    { text: heterogeneityText(rate), value: rate.heterogeneity?.p ?? null },
  ];
}

function drawnRate({ label, group, lowest, highest, interval }: PooledRate) {
  const corners = rateCorners(group.parts);
  const isExactRate = lowest === highest;
  const { failed, total } = corners.lowest;
  return {
    label: isExactRate ? label : `${label} (middle of its bounds)`,
    ...{ events: failed, total },
    rate: isExactRate || lowest === null || highest === null ? lowest : (lowest + highest) / 2,
    lower: interval?.lower ?? null,
    upper: interval?.upper ?? null,
  };
}

function figuresOf({ group, lowest, highest, interval, heterogeneity }: PooledRate): FigureRecord {
  return {
    rate: lowest === highest ? lowest : null,
    ...{ lowest, highest },
    lower: interval?.lower ?? null,
    upper: interval?.upper ?? null,
    interval: interval?.method ?? null,
    failed_least: sumOf(group.parts, "failed").least,
    failed_most: sumOf(group.parts, "failed").most,
    eyes: sumOf(group.parts, "eyes").least,
    heterogeneity_p: heterogeneity?.p ?? null,
    i_squared: heterogeneity?.iSquared ?? null,
  };
}
