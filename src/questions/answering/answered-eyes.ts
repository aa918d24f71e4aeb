import { columnNamed } from "../../cases/table.ts";
import type { Value } from "../../formula/value.ts";
import type { Word } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type {
  AnswerCell,
  Answered,
  Figure,
  LeftOut,
  Pick,
  PickedRows,
  PickRecord,
} from "../answer.ts";
import { timeText } from "./time-words.ts";
import { count } from "./wording.ts";

/** An answer as a value of the language: its plain figures can be read by name. */
export function answerValue(answered: Answered, words: readonly Word[] = []): Value {
  const parts = new Map<string, Value | Word>();
  for (const [name, figure] of Object.entries(answered.answer.figures)) {
    const value = figureValue(figure);
    if (value !== undefined) parts.set(name, value);
  }
  for (const word of words) parts.set(word.name, word);
  return { kind: "thing", of: "answer", parts, content: answered };
}

function figureValue(figure: Figure): Value | undefined {
  if (figure === null) return { kind: "missing" };
  if (typeof figure === "number") return { kind: "number", number: figure };
  if (typeof figure === "string") return { kind: "text", text: figure };
  if (typeof figure === "boolean") return { kind: "truth", truth: figure };
  return undefined;
}

/** The eyes of a record, able to say what a reader needs to find them again. */
export function pickRecord(record: EyeRecord): PickRecord {
  return { describe: (rows) => describeEyes(record, rows) };
}

const shown = ["case", "patient", "eye", "technique", "surgeon"] as const;

function describeEyes(record: EyeRecord, rows: ArrayLike<number>): PickedRows {
  const columns = shown.flatMap((name) => columnNamed(record.table, name) ?? []);
  return {
    headings: [...columns.map((column) => column.label), "outcome", "followed to", "cause"],
    rows: Array.from(rows, (eye) => ({
      lines: record.lines[eye] ?? [],
      texts: [
        ...columns.map((column) => String(column.values[eye] ?? "–")),
        record.state[eye] ?? "unknown",
        timeText(record, record.time[eye] ?? 0),
        (record.causes[eye] ?? []).join(", ") || "–",
      ],
    })),
  };
}

/** Eyes that the record itself could not follow, as an answer counts them. */
export function leftOutOf(record: EyeRecord): LeftOut[] {
  const byReason = new Map<string, LeftOut>();
  for (const { reason, asked } of record.leftOut) {
    const before = byReason.get(reason)?.count ?? 0;
    byReason.set(reason, { reason, count: before + 1, ...(asked === true && { asked }) });
  }
  return [...byReason.values()];
}

/** Collects the rows behind numbers under keys that cells and sentences carry. */
export class PickBook {
  readonly picks = new Map<string, Pick>();

  /** Keeps the rows and returns their key; nothing is kept for no rows. */
  add(key: string, title: string, rows: readonly number[]): string | undefined {
    if (rows.length === 0) return undefined;
    this.picks.set(key, { title, rows });
    return key;
  }

  /** A table cell with the number of rows, leading to them. */
  cell(key: string, title: string, rows: readonly number[]): AnswerCell {
    const pick = this.add(key, title, rows);
    return {
      text: count(rows.length),
      value: rows.length,
      ...(pick === undefined ? {} : { pick }),
    };
  }
}
