import type { Sentence } from "../answer.ts";
import type { RowGroup, RowGrouping } from "../answering/group-rows.ts";
import { capitalised, count, counted, listed, percent } from "../answering/wording.ts";
import { type CrossCount, missingRows, shareOf } from "./cross-count.ts";

/** Counts before percentages; at most three groups are named, and none of nothing. */
export function countBySentence(counts: CrossCount, one: string): Sentence {
  const { rows, by, against } = counts;
  if (rows.length === 0) return [`There are no ${one}s to count.`];
  if (against === undefined && missingRows(by.groups).length === rows.length) {
    const whom = rows.length === 1 ? `the only ${one}` : `any of ${counted(rows.length, one)}`;
    return [`${capitalised(by.label)} is not recorded for ${whom}.`];
  }
  const silent = [silence(by), silence(against)].filter((text) => text !== "");
  const counting = against === undefined ? oneWay(counts, one) : twoWay(counts, one);
  return [silent.length === 0 ? `${counting}.` : `${counting}; not recorded: ${listed(silent)}.`];
}

/** "macula in 33"; empty where nothing is missing. */
function silence(grouping: RowGrouping | undefined): string {
  const missing = missingRows(grouping?.groups ?? []).length;
  return missing === 0 ? "" : `${grouping?.label} in ${count(missing)}`;
}

/** The largest group alone, and what is most frequent there. */
export function countByBrief({ rows, by, against, cells }: CrossCount, one: string): Sentence {
  const places = by.groups
    .map((group, i) => ({ group, i }))
    .filter(({ group }) => group.value !== null);
  const [largest] = places.sort(
    (first, second) => second.group.rows.length - first.group.rows.length,
  );
  if (largest === undefined) return [];
  const { group, i } = largest;
  const number = group.rows.length;
  const whole = counted(rows.length, one);
  if (against === undefined) {
    const share = percent(shareOf(number, rows.length));
    return [`Of ${whole} by ${by.label}, most often ${group.label}: ${count(number)} (${share}).`];
  }
  const columns = against.groups.map((column, j) => ({ ...column, rows: cells[i]?.[j] ?? [] }));
  const [top] = byFrequency(columns.filter(({ value }) => value !== null));
  if (top === undefined || top.rows.length === 0) return [];
  const share = percent(shareOf(top.rows.length, number));
  return [
    `Of ${whole} by ${by.label} and ${against.label}: in the largest group, ${group.label}, most often ${top.label}, ${count(top.rows.length)} of ${count(number)} (${share}).`,
  ];
}

function oneWay({ rows, by }: CrossCount, one: string): string {
  const known = by.groups.filter(({ value }) => value !== null);
  const only = known[0];
  if (known.length === 1 && only?.rows.length === rows.length) {
    return rows.length === 1
      ? `The only ${one} has ${by.label} ${only.label}`
      : `All ${counted(rows.length, one)} have ${by.label} ${only.label}`;
  }
  return `Of ${counted(rows.length, one)} by ${by.label}: ${mostFrequent(known, rows.length)}`;
}

/** "vitrectomy 300 (67.9%), scleral buckle 100 (22.6%) and 2 others together 42 (9.5%)". */
function mostFrequent(known: readonly RowGroup[], whole: number): string {
  const text = (label: string, number: number) =>
    `${label} ${count(number)} (${percent(shareOf(number, whole))})`;
  const ordered = known.length <= 4 ? known : byFrequency(known);
  const named = known.length <= 4 ? known : ordered.slice(0, 3);
  const rest = ordered.slice(named.length);
  const others = rest.reduce((sum, group) => sum + group.rows.length, 0);
  return listed([
    ...named.map(({ label, rows }) => text(label, rows.length)),
    ...(rest.length === 0 ? [] : [text(`${rest.length} others together`, others)]),
  ]);
}

function byFrequency(groups: readonly RowGroup[]): RowGroup[] {
  return [...groups].sort((one, other) => other.rows.length - one.rows.length);
}

/** Within each of the largest groups, what is most frequent there. */
function twoWay(counts: CrossCount, one: string): string {
  const { rows, by, against, cells } = counts;
  const places = by.groups
    .map((group, i) => ({ group, i }))
    .filter(({ group }) => group.value !== null)
    .sort((first, second) => second.group.rows.length - first.group.rows.length)
    .slice(0, 3);
  const within = places.map(({ group, i }) => {
    const columns = (against?.groups ?? []).map((column, j) => ({
      ...column,
      rows: cells[i]?.[j] ?? [],
    }));
    const [top] = byFrequency(columns.filter(({ value }) => value !== null));
    const number = top?.rows.length ?? 0;
    if (top === undefined || number === 0)
      return `${group.label}, none recorded of ${count(group.rows.length)}`;
    const share = percent(shareOf(number, group.rows.length));
    return `${group.label}, ${top.label} in ${count(number)} of ${count(group.rows.length)} (${share})`;
  });
  const more =
    by.groups.length > places.length && places.length === 3 ? " of the largest groups" : "";
  const start = `Of ${counted(rows.length, one)} by ${by.label} and ${against?.label}`;
  return within.length === 0
    ? start
    : `${start}; the commonest in each${more}: ${within.join("; ")}`;
}
