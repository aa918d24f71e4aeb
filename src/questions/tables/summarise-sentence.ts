import type { Sentence } from "../answer.ts";
import type { RowGrouping } from "../answering/group-rows.ts";
import { count, counted, listed } from "../answering/wording.ts";
import { type Summary, summaryValue } from "./summary.ts";

/** Summaries of the groups of a split, and of all rows as one group more. */
export interface Summaries {
  readonly split: RowGrouping | undefined;
  readonly rows: readonly number[];
  readonly summaries: readonly Summary[];
  /** "case" or "eye". */
  readonly one: string;
}

/** At most three summaries, over all rows or from the least to the greatest group. */
export function summariseSentence(parts: Summaries): Sentence {
  const { split, rows, summaries, one } = parts;
  if (rows.length === 0) return [`There are no ${one}s to sum up.`];
  const all = split?.groups.length ?? 0;
  const named = summaries.slice(0, 3);
  const said = named.map((summary) =>
    split === undefined ? overAll(summary, all) : overGroups(summary, split),
  );
  const missing = named
    .map((summary) => ({ label: summary.label, number: summary.missingIn(all) }))
    .filter(({ number }) => number > 0)
    .map(({ label, number }) => `${count(number)} for ${label}`);
  const by = split === undefined ? "" : ` by ${split.label}`;
  const silent = missing.length === 0 ? "" : `; values missing: ${listed(missing)}`;
  return [`Among ${counted(rows.length, one)}${by}: ${said.join("; ")}${silent}.`];
}

function overAll(summary: Summary, all: number): string {
  return summary.at(all) === null
    ? `${summary.label} is not recorded`
    : `${summary.label} ${summaryValue(summary, all)}`;
}

/** "median age from 52 (buckle, 100) to 64 (vitrectomy, 317)", with the rows of each group. */
function overGroups(summary: Summary, { groups }: RowGrouping): string {
  const places = groups.flatMap((group, i) => {
    const held = summary.at(i);
    return typeof held === "number" && group.value !== null
      ? [
          {
            label: `${group.label}, ${count(group.rows.length)}`,
            held,
            text: summaryValue(summary, i),
          },
        ]
      : [];
  });
  if (places.length === 0) return overAll(summary, groups.length);
  const least = places.reduce((best, place) => (place.held < best.held ? place : best));
  const greatest = places.reduce((best, place) => (place.held > best.held ? place : best));
  if (places.length === 1) return `${summary.label} ${least.text} (${least.label})`;
  if (least.held === greatest.held) return `${summary.label} ${least.text} in each`;
  return `${summary.label} from ${least.text} (${least.label}) to ${greatest.text} (${greatest.label})`;
}
