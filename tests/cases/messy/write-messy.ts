import { type Random, seededRandom } from "../../../data-demo/random.ts";
import { type TrueField, type TrueRow, trueFields } from "./clean-truth.ts";
import { type DamagedCells, damageCells, lostAt, splitAt } from "./damage.ts";
import { encode } from "./encode.ts";
import type { Mess } from "./mess.ts";
import { writtenValue } from "./written-value.ts";

export interface MessyFile {
  readonly bytes: Uint8Array;
  /** The line of each true row. */
  readonly lines: readonly number[];
  /** Rows, from 0, of which nothing after the damage can be known, or not at which place. */
  readonly raggedRow?: number;
  /** Values that cannot be known: row and field. */
  readonly unknowable: DamagedCells["unknowable"];
}

/** The truth as a department with such habits hands it over. */
export function writeMessy(truth: readonly TrueRow[], mess: Mess): MessyFile {
  const random = seededRandom(7);
  const order = columnOrder(mess, random);
  const cells = truth.map((row) => order.map((field) => writtenValue(row, field, mess)));
  const damaged = mess.damage === "cells" ? damageCells(cells, order) : { cells, unknowable: [] };
  const raggedRow = cells.length - 6;
  const rows = damaged.cells.map((row, i) => withExtras(row, i, mess));
  const isRagged = mess.damage !== "none" && mess.damage !== "cells";
  if (isRagged) rows[raggedRow] = ragged(rows[raggedRow]!, mess);
  const file = new Lines(mess);
  file.addTitles();
  const headings = withExtras(
    order.map((field) => headingOf(field, mess)),
    -1,
    mess,
  );
  file.add(headings);
  const lines = rows.map((row, i) => {
    if (mess.headingsAgain && i === 20) file.add(headings);
    if (mess.blankLines && i % 7 === 3) file.addText("");
    return file.add(row, mess.damage === "cut short" && i === raggedRow);
  });
  if (mess.below.length > 0) file.add(mess.below, true);
  const { unknowable } = damaged;
  return {
    bytes: encode(file.text, mess.encoding),
    lines,
    unknowable,
    ...(isRagged && { raggedRow }),
  };
}

function columnOrder({ order, damage }: Mess, random: Random): readonly TrueField[] {
  if (order === "reversed" && damage === "none") return [...trueFields].reverse();
  if (order === "as they are" || damage !== "none") return trueFields;
  const keys = new Map(trueFields.map((field) => [field, random.uniform()]));
  return [...trueFields].sort((one, other) => keys.get(one)! - keys.get(other)!);
}

function ragged(row: readonly string[], { damage }: Mess): readonly string[] {
  if (damage === "cut short") return row.slice(0, -3);
  return damage === "value lost"
    ? row.filter((_, i) => i !== lostAt)
    : [...row.slice(0, splitAt), "see", "below", ...row.slice(splitAt + 1)];
}

const otherHeadings: Partial<Record<TrueField, string>> = {
  case: "Record ID",
  patient: "Hospital Number",
  eye: "Laterality",
  operation_date: "Date of Surgery",
  surgeon: "Operating surgeon",
  lens: "Lens status",
  symptom_days: "Duration of symptoms (days)",
  break_type: "Type of break",
  break_clock_hours: "Break position",
  axial_length: "AL (mm)",
  refraction: "Spherical equivalent",
  acuity_before: "Preop VA",
  technique: "Procedure",
  tamponade: "Tamponade agent",
  last_seen_date: "Date of last visit",
  status_last_seen: "Anatomical status",
  redetachment_date: "Date of failure",
};

function headingOf(field: TrueField, { headings }: Mess): string {
  if (headings === "capitals") return field.replaceAll("_", " ").toUpperCase();
  if (headings === "other") return otherHeadings[field] ?? field;
  return headings === "typed wrong" && field === "technique" ? "tecnique" : field;
}

/** Columns that the truth knows nothing of, at the end. No person is called so. */
function withExtras(row: readonly string[], i: number, { extraColumns }: Mess): readonly string[] {
  if (extraColumns === "none") return row;
  if (extraColumns === "own") return [...row, i < 0 ? "Theatre" : `T${i % 3}`];
  return [...row, ...(i < 0 ? ["Surname", "e-mail"] : [`Vane${i}`, `v${i}@example.org`])];
}

/** Builds the text, and knows on which line it is. */
class Lines {
  text = "";
  #line = 1;
  #ends = 0;
  readonly #mess: Mess;

  constructor(mess: Mess) {
    this.#mess = mess;
    if (mess.namesDelimiter) this.addText(`sep=${mess.delimiter}`);
  }

  addTitles(): void {
    const titles = ["Retinal detachment audit", "", "All operations of the unit"];
    for (const title of titles.slice(0, this.#mess.titleLines)) this.addText(title);
  }

  /** Adds a record; the line that it begins on. */
  add(cells: readonly string[], endsThere = false): number {
    const { delimiter, trailingDelimiters } = this.#mess;
    const trailing = endsThere ? 0 : trailingDelimiters;
    const written = [...cells.map((cell) => this.#cell(cell)), ...new Array(trailing).fill("")];
    return this.addText(written.join(delimiter));
  }

  addText(text: string): number {
    const line = this.#line;
    this.#line += text.split("\n").length;
    this.text += text + this.#lineEnd();
    return line;
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
