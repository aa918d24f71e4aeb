import { type Cell, workbookOf } from "../workbook-of.ts";
import type { TrueField } from "./clean-truth.ts";
import type { Mess } from "./mess.ts";
import type { Sink } from "./write-messy.ts";

/** Days from 1899-12-30, and from 1904-01-01, to 1970-01-01. */
const daysBefore = { workbook: 25_569, "workbook since 1904": 24_107 } as const;

/** Builds the rows of a sheet: days that can be read as such by their serial number, texts else. */
export class SheetRows implements Sink {
  readonly #rows: Cell[][] = [];
  readonly #order: readonly TrueField[];
  readonly #since1904: boolean;

  constructor({ encoding }: Mess, order: readonly TrueField[]) {
    this.#order = order;
    this.#since1904 = encoding === "workbook since 1904";
  }

  add(cells: readonly string[]): number {
    return this.#rows.push(cells.map((cell, at) => this.#cell(cell, this.#order[at])));
  }

  addText(text: string): void {
    this.#rows.push(text === "" ? [] : [text]);
  }

  bytes(): Uint8Array {
    return workbookOf({ Operations: this.#rows }, { since1904: this.#since1904 });
  }

  #cell(cell: string, field: TrueField | undefined): Cell {
    if (cell === "") return null;
    if (field?.endsWith("_date") === true) return this.#day(cell);
    // Hours of the clock are typed as text: "1,2" is no number.
    if (field === "break_clock_hours" || !/^-?(0|[1-9]\d*)([.,]\d+)?$/.test(cell)) return cell;
    // A sheet keeps numbers as such; the decimal mark is the program's, when it shows them.
    return Number(cell.replace(",", "."));
  }

  /** What is written as 2024-03-31 by its count of days; anything else as it is. */
  #day(cell: string): Cell {
    const [year, month, day] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(cell)?.slice(1).map(Number) ?? [];
    if (year === undefined || month === undefined || day === undefined) return cell;
    const days = Date.UTC(year, month - 1, day) / 86_400_000;
    const written = new Date(days * 86_400_000).toISOString().slice(0, 10);
    if (written !== cell) return cell;
    return { day: days + daysBefore[this.#since1904 ? "workbook since 1904" : "workbook"] };
  }
}
