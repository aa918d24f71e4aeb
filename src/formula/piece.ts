import type { Problem, Span } from "../problem/problem.ts";
import { type FaultText, fault, type ReadingFault } from "./fault.ts";

export interface Token {
  readonly type: "number" | "day" | "text" | "name" | "keyword" | "sign" | "end";
  /** Offsets in UTF-16 units, end exclusive. */
  readonly span: Span;
  /** A name in normal form C, a keyword, a sign (`≠` as `!=`), a number as typed, a text's content. */
  readonly text: string;
  /** The number, or the day since 1970-01-01. */
  readonly value: number;
}

/** What tokenizing has found so far. */
export interface Reading {
  readonly tokens: Token[];
  readonly problems: Problem[];
  mended: boolean;
}

/** What was read at one place of the text, and how to note what becomes of it. */
export class Piece {
  readonly source: string;
  readonly span: Span;
  private readonly reading: Reading;

  constructor(source: string, start: number, reading: Reading) {
    this.source = source;
    this.span = { start, end: start + source.length };
    this.reading = reading;
  }

  token(type: Token["type"], text: string, value = Number.NaN): void {
    this.reading.tokens.push({ type, span: this.span, text, value });
  }

  fault(code: ReadingFault, text: FaultText, span = this.span): void {
    this.reading.problems.push(fault(code, span, text));
  }

  /** A fault that leaves no token to read on with. */
  unreadable(code: ReadingFault, text: FaultText): void {
    this.fault(code, text);
    this.reading.mended = false;
  }
}
