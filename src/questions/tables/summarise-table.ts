import type { AnswerCell, AnswerColumn, AnswerTable } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { nothing } from "../answering/cell-text.ts";
import type { Summaries } from "./summarise-sentence.ts";
import { type Summary, summaryValue } from "./summary.ts";

/** The key of the rows of a group; of all rows after the last. */
export function groupKey(group: number): string {
  return `g${group}`;
}

/** One row a group, then all rows; beside a summary that left values out, how many. */
export function summariseTable(parts: Summaries, picks: PickBook): AnswerTable {
  const { split, rows, summaries, one } = parts;
  const groups = [...(split?.groups ?? []), { label: `all ${one}s`, rows }];
  const counted = summaries.map((summary) => groups.some((_, i) => summary.missingIn(i) > 0));
  return {
    columns: [
      { label: split?.label ?? "", kind: "text" },
      { label: `${one}s`, kind: "number" },
      ...summaries.flatMap((summary, position): AnswerColumn[] => [
        { label: summary.label, kind: isNumber(summary) ? "number" : "text" },
        ...(counted[position]
          ? [{ label: `${summary.label}: missing`, kind: "number" as const }]
          : []),
      ]),
    ],
    rows: groups.map((group, i) => [
      { text: group.label, value: group.label },
      picks.cell(groupKey(i), group.label, group.rows),
      ...summaries.flatMap((summary, position) => [
        summaryCell(summary, i),
        ...(counted[position]
          ? [
              missingCell(summary, {
                picks,
                group: i,
                label: group.label,
                key: `${groupKey(i)}:m${position}`,
              }),
            ]
          : []),
      ]),
    ]),
  };
}

function isNumber({ kind }: Summary): boolean {
  return kind === "number" || kind === "duration" || kind === "share";
}

function summaryCell(summary: Summary, group: number): AnswerCell {
  const held = summary.at(group);
  if (held === null) return { text: nothing, value: null };
  const text = summaryValue(summary, group);
  return { text, value: typeof held === "number" && isNumber(summary) ? held : text };
}

interface MissingPlace {
  readonly picks: PickBook;
  readonly group: number;
  readonly label: string;
  readonly key: string;
}

function missingCell(summary: Summary, { picks, group, label, key }: MissingPlace): AnswerCell {
  const rows = summary.missingRows(group);
  if (rows !== undefined) return picks.cell(key, `${label}, ${summary.label} missing`, rows);
  const count = summary.missingIn(group);
  return { text: String(count), value: count };
}
