/**
 * What is wrong, in one shape for every room.
 *
 * Reading what a user wrote never throws: it returns a value and problems. A problem says
 * what is wrong, where, what was found, what would be right and how to mend it.
 */

/** Where a problem lies. Every part is optional; lines and columns count from 1. */
export interface Place {
  /** The file's name as the user knows it. */
  readonly file?: string;
  /** Line in the original file, counted from 1. */
  readonly line?: number;
  /** Character in that line, counted from 1. */
  readonly column?: number;
  /** The field of the dictionary, or the heading of the column. */
  readonly field?: string;
  /** The named cell of the sheet. */
  readonly cell?: string;
  /** Span in the text of a working: offsets in UTF-16 units, end exclusive. */
  readonly span?: Span;
}

export interface Span {
  readonly start: number;
  readonly end: number;
}

/**
 * How far a problem reaches:
 * `stop` what it names is left out or not done; `query` it is kept and listed;
 * `note` something the reader should know, nothing is wrong.
 */
export type Severity = "stop" | "query" | "note";

export interface Problem {
  /** Stable name of the kind of problem, in kebab-case; one small broken file in the tests each. */
  readonly code: string;
  readonly severity: Severity;
  readonly place: Place;
  /** One sentence: what is wrong. */
  readonly message: string;
  /** The value or excerpt as it was read. */
  readonly found?: string;
  /** What would have been right. */
  readonly expected?: string;
  /** What the reader can do about it. */
  readonly remedy?: string;
  /** A replacement for the text at `place.span` that would mend it. */
  readonly replacement?: string;
}
