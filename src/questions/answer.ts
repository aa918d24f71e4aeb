import type { ChartRequest } from "../charts/chart-request.ts";

/**
 * What a question answers: a sentence for the minutes, a table, a chart, its cautions, and the
 * eyes behind every number. Plain data throughout, so that it can cross to the page as it is.
 */
export interface Answer {
  /** The word of the vocabulary that made it: `failure_rate`. */
  readonly question: string;
  /** The question in the reader's words: "How often did it fail?" */
  readonly asks: string;
  readonly sentence: Sentence;
  /** The headline with its interval and its eyes, one line to read from afar (≤ 140 characters). */
  readonly brief?: Sentence;
  /** Codes of surgeons and supervisors that it shows, in order; left out where it shows none. */
  readonly people?: readonly string[];
  readonly table: AnswerTable;
  /** Laid out by `layChart` for the width there is. */
  readonly chart?: ChartRequest;
  readonly cautions: readonly Caution[];
  /** What one row of the record is: eyes nearly always, cases for questions on the record. */
  readonly unit: "eyes" | "cases";
  readonly used: number;
  readonly leftOut: readonly LeftOut[];
  /** The numbers by name, unrounded, for workings and for `results.json`. */
  readonly figures: Readonly<Record<string, Figure>>;
}

/** Parts in reading order; joined they are the sentence. */
export type Sentence = readonly (string | SentencePart)[];

export interface SentencePart {
  readonly text: string;
  /** `failed` and `attached` are drawn in their own colours. */
  readonly role?: "failed" | "attached";
  /** Key of the rows behind it, in `Answered.picks`. */
  readonly pick?: string;
}

export interface AnswerTable {
  readonly columns: readonly AnswerColumn[];
  readonly rows: readonly (readonly AnswerCell[])[];
}

export interface AnswerColumn {
  readonly label: string;
  /**
   * `interval` holds two limits (two columns when saved as CSV); `estimate` a value with its two
   * limits (three columns); `mark` is a drawn interval whose numbers stand in the neighbouring
   * columns already (no column when saved).
   */
  readonly kind: "text" | "number" | "interval" | "estimate" | "mark";
}

export interface AnswerCell {
  /** As shown. */
  readonly text: string;
  /** Unrounded; null where there is none. */
  readonly value: number | string | null;
  readonly limits?: { readonly lower: number; readonly upper: number };
  readonly pick?: string;
  readonly mark?: IntervalMark;
}

/** A rate with its interval, as fractions of 1, drawn on a scale shared by the column. */
export interface IntervalMark {
  readonly rate: number;
  readonly lower: number;
  readonly upper: number;
  readonly reference?: number;
  /** The right end of the scale. */
  readonly most: number;
}

export interface Caution {
  /** Stable name: `small-numbers`, `techniques-chosen`. */
  readonly code: string;
  readonly text: string;
}

export interface LeftOut {
  readonly reason: string;
  readonly count: number;
  /** The question itself asked for it: no matter for a caution. */
  readonly asked?: boolean;
  readonly pick?: string;
}

export type Figure = number | string | boolean | null | readonly Figure[] | FigureRecord;
export interface FigureRecord {
  readonly [name: string]: Figure;
}

/** What a word that answers hands over: the answer, and the rows behind its numbers. */
export interface Answered {
  readonly answer: Answer;
  /** By the key that a sentence part, a table cell or a mark of the chart carries as `pick`. */
  readonly picks: ReadonlyMap<string, Pick>;
  readonly record: PickRecord;
}

export interface Pick {
  /** "scleral buckle, failed" */
  readonly title: string;
  /** Rows of the record. */
  readonly rows: ArrayLike<number>;
}

/** The record that picks point into, able to describe its rows. */
export interface PickRecord {
  describe(rows: ArrayLike<number>): PickedRows;
}

export interface PickedRows {
  /** What a reader needs to find the eye again: case, eye, day, cause, surgeon. */
  readonly headings: readonly string[];
  readonly rows: readonly PickedRow[];
}

export interface PickedRow {
  /** Lines of the original file, first operation first. */
  readonly lines: readonly number[];
  readonly texts: readonly string[];
}

/** The sentence as plain text. */
export function sentenceText(sentence: Sentence): string {
  return sentence.map((part) => (typeof part === "string" ? part : part.text)).join("");
}
