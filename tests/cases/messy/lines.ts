import { encode } from "./encode.ts";
import type { Mess } from "./mess.ts";
import type { Sink } from "./write-messy.ts";

/** Builds a text, and knows on which line it is. */
export class Lines implements Sink {
  #text = "";
  #line = 1;
  #ends = 0;
  readonly #mess: Mess;

  constructor(mess: Mess) {
    this.#mess = mess;
    if (mess.namesDelimiter) this.addText(`sep=${mess.delimiter}`);
  }

  add(cells: readonly string[], endsThere = false): number {
    const { delimiter, trailingDelimiters } = this.#mess;
    const trailing = endsThere ? 0 : trailingDelimiters;
    const written = [...cells.map((cell) => this.#cell(cell)), ...new Array(trailing).fill("")];
    const line = this.#line;
    this.addText(written.join(delimiter));
    return line;
  }

  addText(text: string): void {
    this.#line += text.split("\n").length;
    this.#text += text + this.#lineEnd();
  }

  bytes(): Uint8Array {
    const { encoding } = this.#mess;
    if (encoding === "workbook" || encoding === "workbook since 1904") {
      throw new Error("a workbook is no text");
    }
    return encode(this.#text, encoding);
  }

  #cell(cell: string): string {
    const { delimiter, padding, quoteAll } = this.#mess;
    const mustQuote = [delimiter, '"', "\n"].some((sign) => cell.includes(sign));
    const padded = `${padding}${cell}${padding}`;
    return quoteAll || mustQuote ? `"${padded.replaceAll('"', '""')}"` : padded;
  }

  #lineEnd(): string {
    const { lineEnd } = this.#mess;
    if (lineEnd !== "mixed") return lineEnd;
    this.#ends++;
    // No "\n" comes after "\r" and a blank line: the two would be one line end.
    return ["\r", "\r\n", "\n"][this.#ends % 3]!;
  }
}
