import { DifferentValues, widened } from "./different-values.ts";

/** The rows of a delimited file as text, exactly as written but for space around the values. */
export interface FileRows {
  /** Every different value of the file, once; the first is empty. */
  readonly different: readonly string[];
  /** The values of all rows, one row after the other, as places in `different`. */
  readonly cells: Uint32Array;
  /** Where each row begins in `cells`, and the end of the last. */
  readonly starts: readonly number[];
  /** The line each row begins on, counted from 1. */
  readonly lines: readonly number[];
  /** Lines with a quote that opens a value and never properly closes it: read as a plain sign. */
  readonly strayQuotes: readonly number[];
}

/**
 * Rows of a delimited text (RFC 4180, and the ways in which files depart from it): line ends CRLF,
 * LF and CR, also mixed; values in quotes may hold delimiters, line ends and doubled quotes.
 * Rows without any value are passed over. No row is ever joined with another because a quote is
 * left open: such a quote is read as a plain sign.
 */
export function readRows(text: string, delimiter: string): FileRows {
  const scan = new RowScan(text, delimiter.charCodeAt(0));
  while (scan.position < text.length) scan.readRow();
  return scan.rows();
}

/** A value of the file, by its place in `cells`. */
export function cellOf({ different, cells }: FileRows, at: number): string {
  return different[cells[at]!]!;
}

const quote = 34;
const lineFeed = 10;
const carriageReturn = 13;

class RowScan {
  position = 0;
  readonly #text: string;
  readonly #delimiter: number;
  readonly #different = new DifferentValues();
  #cells = new Uint32Array(4096);
  #cellCount = 0;
  readonly #starts: number[] = [];
  readonly #lines: number[] = [];
  readonly #strayQuotes: number[] = [];
  #line = 1;
  /** Width of the widest row so far, to know rows inside a quote by. */
  #width = 0;

  constructor(text: string, delimiter: number) {
    this.#text = text;
    this.#delimiter = delimiter;
  }

  rows(): FileRows {
    return {
      different: this.#different.values,
      cells: this.#cells.subarray(0, this.#cellCount),
      starts: [...this.#starts, this.#cellCount],
      lines: this.#lines,
      strayQuotes: this.#strayQuotes,
    };
  }

  readRow(): void {
    const start = this.#cellCount;
    const line = this.#line;
    while (this.#readValue());
    if (this.#isBlankFrom(start)) {
      this.#cellCount = start;
      return;
    }
    this.#starts.push(start);
    this.#lines.push(line);
    this.#width = Math.max(this.#width, this.#cellCount - start);
  }

  #isBlankFrom(start: number): boolean {
    for (let i = start; i < this.#cellCount; i++) if (this.#cells[i] !== 0) return false;
    return true;
  }

  #take(text: string, start: number, end: number): void {
    if (this.#cellCount === this.#cells.length) this.#cells = widened(this.#cells);
    this.#cells[this.#cellCount++] = this.#different.placeOf(text, start, end);
  }

  /** Reads one value and the sign after it; whether the row goes on. */
  #readValue(): boolean {
    const start = this.#skipSpaces(this.position);
    if (this.#text.charCodeAt(start) === quote) {
      const end = this.#endOfQuoted(start);
      if (end >= 0) return this.#takeQuoted(start, end);
      this.#strayQuotes.push(this.#line);
    }
    const end = this.#endOfPlain(this.position);
    this.#take(this.#text, this.position, end);
    return this.#takeEnd(end);
  }

  #takeQuoted(start: number, end: number): boolean {
    const inner = this.#text.slice(start + 1, end);
    const value = inner.includes('"') ? inner.replaceAll('""', '"') : inner;
    this.#take(value, 0, value.length);
    this.#line += lineEndsIn(inner);
    return this.#takeEnd(this.#skipSpaces(end + 1));
  }

  /**
   * Position of the quote that closes the one at `start`, or -1: where none does, where something
   * else than a delimiter or a line end follows it, or where whole rows would lie inside.
   */
  #endOfQuoted(start: number): number {
    const text = this.#text;
    let end = text.indexOf('"', start + 1);
    while (end >= 0 && text.charCodeAt(end + 1) === quote) end = text.indexOf('"', end + 2);
    if (end < 0) return -1;
    const after = this.#skipSpaces(end + 1);
    const isClosed = after >= text.length || this.#isEnd(text.charCodeAt(after));
    return isClosed && !this.#holdsRows(start + 1, end) ? end : -1;
  }

  /** Whether a line wholly inside has as many delimiters as a row of the file (of 4 or more). */
  #holdsRows(start: number, end: number): boolean {
    if (this.#width < 4) return false;
    const inner = this.#text.slice(start, end).split(/\r\n|\r|\n/);
    const delimiter = String.fromCharCode(this.#delimiter);
    return inner.slice(1, -1).some((line) => line.split(delimiter).length >= this.#width);
  }

  #endOfPlain(start: number): number {
    const text = this.#text;
    let end = start;
    while (end < text.length && !this.#isEnd(text.charCodeAt(end))) end++;
    return end;
  }

  #isEnd(code: number): boolean {
    return code === this.#delimiter || code === lineFeed || code === carriageReturn;
  }

  #takeEnd(end: number): boolean {
    const code = this.#text.charCodeAt(end);
    this.position = end + 1;
    if (code === this.#delimiter) return true;
    if (code === carriageReturn && this.#text.charCodeAt(end + 1) === lineFeed) this.position++;
    this.#line++;
    return false;
  }

  #skipSpaces(from: number): number {
    let position = from;
    while (this.#text.charCodeAt(position) === 32) position++;
    return position;
  }
}

function lineEndsIn(text: string): number {
  let ends = 0;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === lineFeed && text.charCodeAt(i - 1) === carriageReturn) continue;
    if (code === lineFeed || code === carriageReturn) ends++;
  }
  return ends;
}
