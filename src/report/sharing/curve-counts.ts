import type { AttachmentCurves } from "../../charts/attachment-curves.ts";
import type { Answer } from "../../questions/answer.ts";
import type { CountedSet } from "../disclosure/counted-set.ts";
import { type PickedRows, unionOf } from "./picked-rows.ts";

/**
 * The counts that a curve gives away where it is drawn: for each group and each day on which it
 * would be read, the eyes at risk and the eyes failed so far. (The estimate on a day hangs on the
 * order of failures and losses before it as well, which no count shows.) The eyes lost before a day are
 * what is left of all: protected, so that they differ by no small count from those that a table beside
 * calls not known, even where it takes early visits as the whole window.
 */
export function curveCounts(name: string, answer: Answer, rowsOf: PickedRows): CountedSet[] {
  const curves = curvesOf(answer);
  if (curves === undefined) return [];
  const days = [
    ...new Set([...curves.atRiskTimes, ...landmarkDays(answer).flatMap((day) => day ?? [])]),
  ];
  return curves.groups.flatMap((group, position) => {
    const failed = days.map((day) => failedBy(group, day, { name, rowsOf }));
    const atRisk = (curves.atRiskPicks?.[position] ?? []).map((pick, column) => ({
      key: `${name}/${pick}`,
      rows: rowsOf(pick) ?? new Set<number>(),
      families: [`${name}/at risk ${column}`],
    }));
    const lost = curves.atRiskTimes.map((day, column) => {
      const others = unionOf(
        [atRisk[column], failed[days.indexOf(day)]].flatMap((set) => set?.rows ?? []),
      );
      return {
        key: `${name}/lost before ${day}: ${group.label}`,
        rows: new Set([...(rowsOf(group.pick ?? "") ?? [])].filter((row) => !others.has(row))),
        families: [],
        isOnlyProtected: true,
      };
    });
    return [...failed, ...atRisk, ...lost];
  });
}

function failedBy(
  { label, steps }: AttachmentCurves["groups"][number],
  day: number,
  { name, rowsOf }: { readonly name: string; readonly rowsOf: PickedRows },
): CountedSet {
  const until = steps.filter(({ time }) => time <= day);
  return {
    key: failedKey(name, label, day),
    rows: unionOf(until.flatMap(({ pick }) => (pick === undefined ? [] : (rowsOf(pick) ?? [])))),
    families: [`${name}/failed by ${day}`],
  };
}

export function failedKey(name: string, group: string, day: number): string {
  return `${name}/failed by ${day}: ${group}`;
}

export function curvesOf({ chart, question }: Answer): AttachmentCurves | undefined {
  const isCurve = question === "attachment_curve" && chart?.draw === "attachment curves";
  return isCurve ? chart.curves : undefined;
}

/** For each column of the table the day it is read on, from "6 months (95%)"; else undefined. */
export function landmarkDays({ table }: Answer): (number | undefined)[] {
  return table.columns.map(({ label, kind }) => {
    const [, amount, unit] = /^(\d+) (day|week|month|year)s? \(/.exec(label) ?? [];
    if (kind !== "estimate" || amount === undefined || unit === undefined) return undefined;
    return Math.round(Number(amount) * (daysIn.get(unit) ?? Number.NaN));
  });
}

const daysIn: ReadonlyMap<string, number> = new Map([
  ["day", 1],
  ["week", 7],
  ["month", 365.25 / 12],
  ["year", 365.25],
]);
