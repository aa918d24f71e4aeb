import { type Cell, workbookOf } from "../workbook-of.ts";
import type { TrueField } from "./clean-truth.ts";
import type { Mess } from "./mess.ts";
import type { Sink } from "./write-messy.ts";

/** Days from 1899-12-30, and from 1904-01-01, to 1970-01-01. */
const daysBefore = { workbook: 25_569, "workbook since 1904": 24_107 } as const;

/** Builds the rows of a sheet: days that can be read as such by their serial number, texts else. */
export class SheetRows implements Sink {
  readonly #rows: Cell[][] = [];
  readonly #dates: readonly boolean[];
  readonly #since1904: boolean;

  constructor({ encoding }: Mess, order: readonly TrueField[]) {
    this.#dates = order.map((field) => field.endsWith("_date"));
    this.#since1904 = encoding === "workbook since 1904";
  }

  add(cells: readonly string[]): number {
    return this.#rows.push(cells.map((cell, at) => this.#cell(cell, this.#dates[at] ?? false)));
  }

  addText(text: string): void {
    this.#rows.push(text === "" ? [] : [text]);
  }

  bytes(): Uint8Array {
    return workbookOf({ Operations: this.#rows }, { since1904: this.#since1904 });
  }

  #cell(cell: string, isDate: boolean): Cell {
    if (cell === "") return null;
    const [year, month, day] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(cell)?.slice(1).map(Number) ?? [];
    if (!isDate || year === undefined || month === undefined || day === undefined) return cell;
    const days = Date.UTC(year, month - 1, day) / 86_400_000;
    const written = new Date(days * 86_400_000).toISOString().slice(0, 10);
    if (written !== cell) return cell;
    return { day: days + daysBefore[this.#since1904 ? "workbook since 1904" : "workbook"] };
  }
}
