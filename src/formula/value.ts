/**
 * What a working can be worth. Every value says its kind; a missing value is a value of its own,
 * never zero and never false.
 *
 * Days are whole days since 1970-01-01 in the proleptic Gregorian calendar, without time zone.
 */
export type Value =
  | Missing
  | { readonly kind: "number"; readonly number: number }
  | { readonly kind: "truth"; readonly truth: boolean }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "day"; readonly day: number }
  | Duration
  | List
  | Thing;

export interface Missing {
  readonly kind: "missing";
}

/** A length of time as written, and the whole days it stands for. */
export interface Duration {
  readonly kind: "duration";
  readonly amount: number;
  readonly unit: DurationUnit;
  /** `wholeDays(amount, unit)`. */
  readonly days: number;
}

export type DurationUnit = "day" | "week" | "month" | "year";

export interface List {
  readonly kind: "list";
  readonly items: readonly Value[];
}

/**
 * Something made by a word of the vocabulary that the language itself cannot look into: a table
 * of cases, a set of eyes, an answer. Its kind is its maker's word ("cases", "eyes", "answer");
 * its parts are read by name (`how_often.rate`), own data only.
 */
export interface Thing {
  readonly kind: "thing";
  readonly of: string;
  /** What a working can read of it by name: values, or words to call (`when.at(90 days)`). */
  readonly parts: ReadonlyMap<string, Value | Callable>;
  /** The thing itself, for the words that take it. The language never looks inside. */
  readonly content: unknown;
}

/** A word to call, as far as a value needs to know: every `Word` of vocabulary.ts is one. */
export interface Callable {
  readonly name: string;
  readonly meaning: string;
  readonly parameters: readonly unknown[];
  readonly answers: string;
  call(given: never): unknown;
}

export const missing: Missing = { kind: "missing" };

const daysInUnit = { day: 1, week: 7, month: 365.25 / 12, year: 365.25 } as const;

/**
 * The whole days a length of time stands for: a month is a twelfth of 365.25 days, rounded to
 * the nearest day once, at the end (1, 3, 6, 12 months are 30, 91, 183, 365 days).
 */
export function wholeDays(amount: number, unit: DurationUnit): number {
  return Math.round(amount * daysInUnit[unit]);
}

export function duration(amount: number, unit: DurationUnit): Duration {
  return { kind: "duration", amount, unit, days: wholeDays(amount, unit) };
}
