import { type Random, seededRandom } from "../../../data-demo/random.ts";
import { type TrueField, type TrueRow, trueFields } from "./clean-truth.ts";
import { type DamagedCells, damageCells, lostAt, slipDay, splitAt } from "./damage.ts";
import { headingOf } from "./heading.ts";
import { Lines } from "./lines.ts";
import type { Mess } from "./mess.ts";
import { SheetRows } from "./sheet-rows.ts";
import { writtenValue } from "./written-value.ts";

export interface MessyFile {
  readonly bytes: Uint8Array;
  /** The line of each true row. */
  readonly lines: readonly number[];
  /** Rows, from 0, of which nothing after the damage can be known, or not at which place. */
  readonly raggedRow?: number;
  /** Values that cannot be known: row and field. */
  readonly unknowable: DamagedCells["unknowable"];
  /** Columns that are asked about as a whole, by field or heading. */
  readonly columnsAtFault: readonly string[];
}

/** What a file is built in: the lines of a text, or the rows of a sheet. */
export interface Sink {
  /** Adds a record; the line that it begins on. */
  add(cells: readonly string[], endsThere?: boolean): number;
  addText(text: string): void;
  bytes(): Uint8Array;
}

const titles = ["Retinal detachment audit", "", "All operations of the unit"];

/** The truth as a department with such habits hands it over. */
export function writeMessy(truth: readonly TrueRow[], mess: Mess): MessyFile {
  const order = columnOrder(mess, seededRandom(7));
  const { cells, unknowable } = damaged(
    truth.map((row) => order.map((field) => writtenValue(row, field, mess))),
    order,
    mess,
  );
  // An eye that did not fail: cutting its row short takes no day of failure away.
  const raggedRow = truth.findLastIndex((row) => row.redetachment_date === null);
  const rows = cells.map((row, i) => withExtras(row, i, mess));
  const isRagged = ["value lost", "value split", "cut short"].includes(mess.damage);
  if (isRagged) rows[raggedRow] = ragged(rows[raggedRow]!, mess);
  const file: Sink = mess.encoding.startsWith("workbook")
    ? new SheetRows(mess, order)
    : new Lines(mess);
  for (const title of titles.slice(0, mess.titleLines)) file.addText(title);
  const named = order.map((field) => headingOf(field, mess));
  const headings = withExtras(named, -1, mess);
  file.add(headings);
  const lines = rows.map((row, i) => {
    if (mess.headingsAgain && i === 20) file.add(headings);
    if (mess.blankLines && i % 7 === 3) file.addText("");
    return file.add(row, mess.damage === "cut short" && i === raggedRow);
  });
  if (mess.below.length > 0) file.add(mess.below, true);
  const columnsAtFault = [
    ...(mess.damage === "order of a day slipped" ? ["operation_date"] : []),
    ...headingsAtFault(headings),
  ];
  return { bytes: file.bytes(), lines, unknowable, columnsAtFault, ...(isRagged && { raggedRow }) };
}

function headingsAtFault(headings: readonly string[]): readonly string[] {
  return headings.flatMap((heading, at) => {
    if (heading === "") return [`column ${at + 1}`];
    return headings.indexOf(heading) < at ? [heading] : [];
  });
}

function damaged(
  cells: readonly (readonly string[])[],
  order: readonly TrueField[],
  { damage }: Mess,
): DamagedCells {
  if (damage === "cells") return damageCells(cells, order);
  return damage === "order of a day slipped" ? slipDay(cells, order) : { cells, unknowable: [] };
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

/** Columns that the truth knows nothing of, at the end; row -1 is the headings. */
function withExtras(row: readonly string[], i: number, mess: Mess): readonly string[] {
  return [...row, ...extra(i, mess), ...ofFaultyHeadings(i, mess)];
}

/** No person is called so. */
function extra(i: number, { extraColumns }: Mess): readonly string[] {
  if (extraColumns === "none") return [];
  if (extraColumns === "own") return [i < 0 ? "Theatre" : `T${i % 3}`];
  return i < 0 ? ["Surname", "e-mail"] : [`Vane${i}`, `v${i}@example.org`];
}

function ofFaultyHeadings(i: number, { headingFault }: Mess): readonly string[] {
  if (headingFault === "none") return [];
  if (headingFault === "repeated") return i < 0 ? ["Rota", "Rota"] : [`R${i % 2}`, `R${i % 5}`];
  if (headingFault === "empty") return i < 0 ? ["", ""] : [`${i % 4} trays`, `${i % 3} lists`];
  const count = 200 - trueFields.length;
  return Array.from({ length: count }, (_, at) => (i < 0 ? `Tray ${at + 1}` : `K${(i + at) % 9}`));
}
