import type { Problem, Span } from "../problem/problem.ts";
import type { Callable, Value } from "./value.ts";

/**
 * The vocabulary that a working may call is handed in; the language itself knows none of it.
 */
export type Vocabulary = ReadonlyMap<string, Word>;

/** One word that a working can call. */
export interface Word {
  readonly name: string;
  /** One line, for completion and the list of words. */
  readonly meaning: string;
  /** In positional order. */
  readonly parameters: readonly Parameter[];
  /**
   * What the call is worth: a kind of value, or what a thing is `of`. Checks rely on it. "any", or
   * several words ("the kind given"), where it depends on the arguments.
   */
  readonly answers: string;
  call(given: GivenArguments): Outcome;
  /**
   * Set where the word may stand inside a row expression with columns among its arguments
   * (`round(age)`, `band(age, [40, 60])`). Called once a table, not once a row. Arguments that
   * are the same in every row say so by their `constant`.
   */
  readonly perRow?: (given: RowArguments) => RowOutcome;
  /**
   * Set with `perRow` where the word looks up columns by itself (`risk_factors()`), so that a call
   * is tied to the table even with no column among its arguments.
   */
  readonly readsRow?: true;
  /**
   * Set where the word sums up many rows when a summary is asked for (`median(age)` over the
   * rows of a group): its list is gathered from the rows, `known` without the missing ones
   * (they are counted), `all` with them. Needs `perRow`.
   */
  readonly overRows?: "known" | "all";
}

/** Whether a part of a thing is a word to call rather than a value. */
export function isWord(part: Value | Callable): part is Word {
  return !("kind" in part);
}

/** An argument a word takes. */
export interface Parameter {
  readonly name: string;
  readonly meaning: string;
  /**
   * `value`: worked out before the call, and it must be one of `kinds`;
   * `row`: an expression over the columns of a table, handed over unevaluated.
   */
  readonly takes: "value" | "row";
  /**
   * The kinds allowed: "number", "truth", "text", "day", "duration", "list", or what a thing is
   * `of`. Empty allows any. For a list, the kinds are those of the list, not of its items.
   * A missing value is refused unless "missing" is among the kinds or none are listed.
   */
  readonly kinds: readonly string[];
  readonly required: boolean;
  /** For texts with a fixed set of choices. */
  readonly choices?: readonly string[];
  /** How the default reads in a working, for the desk and the documentation. */
  readonly whenLeftOut?: string;
  /** The last parameter may be given any number of times (`summarise(t, median(a), median(b))`). */
  readonly repeated?: boolean;
  /** Never filled by position, so that a repeated parameter can follow: `by: technique`. */
  readonly byNameOnly?: boolean;
  /**
   * On a repeated parameter: an argument under a name that is no parameter belongs here and
   * keeps that name (`with_column(cases, elderly: age >= 70)`).
   */
  readonly freeNames?: boolean;
}

/** The arguments of one call, by parameter name. One left out is absent from the map. */
export interface GivenArguments {
  readonly values: ReadonlyMap<string, GivenValue>;
  readonly rows: ReadonlyMap<string, RowExpression>;
  /** For a repeated parameter: all that were given, in order. */
  readonly repeated: readonly (GivenValue | RowExpression)[];
  /** The whole call in the text of the working. */
  readonly span: Span;
}

export interface GivenValue {
  readonly value: Value;
  readonly span: Span;
  /** The free name it was given under, where the parameter takes free names. */
  readonly name?: string;
}

/** An expression over the columns of a table that is not known yet. */
export interface RowExpression {
  /** As written, formatted. */
  readonly text: string;
  readonly span: Span;
  /**
   * Ties the names in the expression to columns, and checks kinds once. Names that are not
   * columns are looked up among the cells of the sheet; a column hides a cell of the same name.
   */
  over(columns: RowColumns): BoundRow;
  /**
   * The same for a summary: one row of the outcome is one group, given by its row numbers.
   * Words that sum up (`median`, `sum`, `count` …) gather their argument from the group's rows;
   * a column outside such a word is a fault. Set on every expression that `evaluate` hands over.
   */
  overGroups?(columns: RowColumns, groups: readonly ArrayLike<number>[]): BoundSummary;
  /** The free name it was given under, where the parameter takes free names. */
  readonly name?: string;
}

/** `names`: the columns the expression uses, in the order of their first mention. */
export type BoundRow =
  | { readonly ok: true; readonly column: RowColumn; readonly names: readonly string[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** As BoundRow, with the number of missing values left out of the summaries of a group. */
export type BoundSummary =
  | {
      readonly ok: true;
      readonly column: RowColumn;
      readonly names: readonly string[];
      missingIn(group: number): number;
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** The columns that a row expression can see. */
export interface RowColumns {
  names(): Iterable<string>;
  column(name: string): RowColumn | undefined;
}

/**
 * One column as the language sees it: its kind, and what stands in each row. Days are whole days
 * since 1970-01-01, durations whole days, both as plain numbers; `codes` are several texts.
 */
export interface RowColumn {
  readonly kind: "number" | "truth" | "text" | "day" | "duration" | "codes";
  /** As the reader would name it: a heading, or the text of the expression. */
  readonly label: string;
  /** The order of codes, where the column has one, for tables and charts. */
  readonly order?: readonly string[];
  at(row: number): number | boolean | string | readonly string[] | null;
}

/** A call gives a value or says what is wrong. It never throws for what a user wrote. */
export type Outcome =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** What stands in a row: as in RowColumn, or several of them for a list. */
export type RowValue = number | boolean | string | null | readonly RowValue[];

/** The kinds a row expression knows before any row is read. `missing` is missing in every row. */
export type RowKind = "number" | "truth" | "text" | "day" | "duration" | "list" | "missing";

/** A part of a row expression: its kind, and what it is worth in each row. Codes are a list. */
export interface RowOperand {
  readonly kind: RowKind;
  /** For a list: the kind of its items, absent where they differ. */
  readonly item?: RowKind;
  /** The order of codes, where there is one. */
  readonly order?: readonly string[];
  /** The value, where it is the same in every row. */
  readonly constant?: Value;
  at(row: number): RowValue;
}

export interface GivenOperand {
  readonly operand: RowOperand;
  readonly span: Span;
}

/** The arguments of a word inside a row expression, by parameter name. */
export interface RowArguments {
  readonly values: ReadonlyMap<string, GivenOperand>;
  readonly repeated: readonly GivenOperand[];
  /** Every column of the table, for words that look at the whole row. */
  readonly columns: RowColumns;
  readonly span: Span;
}

export type RowOutcome =
  | { readonly ok: true; readonly operand: RowOperand }
  | { readonly ok: false; readonly problems: readonly Problem[] };
