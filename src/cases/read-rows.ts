/** The rows of a delimited file as text, exactly as written but for space around the values. */
export interface FileRows {
  /** The values of all rows, one row after the other. */
  readonly cells: readonly string[];
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
  const { cells, starts, lines, strayQuotes } = scan;
  return { cells, starts: [...starts, cells.length], lines, strayQuotes };
}

const quote = 34;
const lineFeed = 10;
const carriageReturn = 13;

/**
 * Values cut from a text, without space around them. Most values of a file come again and again:
 * short ones that are still at hand are given again, which saves their memory and makes looking
 * them up later a comparison of places.
 */
class SharedValues {
  readonly #text: string;
  readonly #atHand: string[] = new Array(slots).fill("");

  constructor(text: string) {
    this.#text = text;
  }

  between(start: number, end: number): string {
    if (start === end) return "";
    const text = this.#text;
    const isClean = isInk(text.charCodeAt(start)) && isInk(text.charCodeAt(end - 1));
    if (!isClean) return text.slice(start, end).trim();
    if (end - start > longestShared) return text.slice(start, end);
    let slot = end - start;
    for (let i = start; i < end; i++) slot = (slot * 31 + text.charCodeAt(i)) & (slots - 1);
    const atHand = this.#atHand[slot]!;
    if (atHand.length === end - start && text.startsWith(atHand, start)) return atHand;
    const value = text.slice(start, end);
    this.#atHand[slot] = value;
    return value;
  }
}

const slots = 8192;
const longestShared = 24;

class RowScan {
  position = 0;
  readonly cells: string[] = [];
  readonly starts: number[] = [];
  readonly lines: number[] = [];
  readonly strayQuotes: number[] = [];
  readonly #text: string;
  readonly #delimiter: number;
  readonly #shared: SharedValues;
  #line = 1;
  /** Width of the widest row so far, to know rows inside a quote by. */
  #width = 0;

  constructor(text: string, delimiter: number) {
    this.#text = text;
    this.#delimiter = delimiter;
    this.#shared = new SharedValues(text);
  }

  readRow(): void {
    const start = this.cells.length;
    const line = this.#line;
    while (this.#readValue());
    if (this.#isBlankFrom(start)) {
      this.cells.length = start;
      return;
    }
    this.starts.push(start);
    this.lines.push(line);
    this.#width = Math.max(this.#width, this.cells.length - start);
  }

  #isBlankFrom(start: number): boolean {
    for (let i = start; i < this.cells.length; i++) if (this.cells[i] !== "") return false;
    return true;
  }

  /** Reads one value and the sign after it; whether the row goes on. */
  #readValue(): boolean {
    const start = this.#skipSpaces(this.position);
    if (this.#text.charCodeAt(start) === quote) {
      const end = this.#endOfQuoted(start);
      if (end >= 0) return this.#takeQuoted(start, end);
      this.strayQuotes.push(this.#line);
    }
    const end = this.#endOfPlain(this.position);
    this.cells.push(this.#shared.between(this.position, end));
    return this.#takeEnd(end);
  }

  #takeQuoted(start: number, end: number): boolean {
    const inner = this.#text.slice(start + 1, end);
    this.cells.push(inner.includes('"') ? inner.replaceAll('""', '"').trim() : inner.trim());
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

function isInk(code: number): boolean {
  return code > 32 && code < 127;
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
