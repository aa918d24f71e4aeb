import type { Problem } from "../problem/problem.ts";
import type { LeftOutRow } from "./case-reading.ts";
import type { ColumnPlan } from "./match-columns.ts";
import { isMissing } from "./missing-value.ts";
import { type RawTable, withoutRows } from "./raw-table.ts";
import { readColumn } from "./values/read-column.ts";
import { WrittenColumn } from "./written-column.ts";

export interface SettledRows {
  readonly table: RawTable;
  readonly leftOut: readonly LeftOutRow[];
  readonly problems: readonly Problem[];
}

/**
 * Settles what can be believed of rows with more or fewer values than the others.
 *
 * Where all values fit their headings, only the last ones are missing or too many, and the row is
 * kept as it stands. Where some do not, a value is lost or split inside and those after it have
 * moved. Everything from the earliest place where that can have happened is set aside, with one
 * query for the row. Where no such place makes the rest fit, or nothing stands before it, nothing
 * of the row is sure, and it is left out. No value is ever moved back: that would be a guess.
 */
export function settleRagged(table: RawTable, plans: readonly ColumnPlan[]): SettledRows {
  const { ragged, lines } = table;
  if (ragged.size === 0) return { table, leftOut: [], problems: [] };
  const rows = [...lines.keys()].filter((row) => ragged.has(lines[row]!));
  const misfits = plans.map((plan) => misfitsUnder(plan, table, rows));
  const firstMoved = new Map<number, number>();
  const unplaced: number[] = [];
  const sound = new Set<number>();
  const problems = rows.flatMap((row): Problem | [] => {
    const line = lines[row]!;
    const { extra, isEmptyEnd } = ragged.get(line)!;
    const place = { line, extra, table };
    const from = movedFrom(table, row, misfits);
    if (from === "none" && isEmptyEnd) {
      sound.add(line);
      return [];
    }
    if (from === "none") return raggedAtEnd(place);
    if (from !== "anywhere" && hasValueBefore(table, row, from)) {
      firstMoved.set(row, from);
      return moved(place, table.headings[from]!);
    }
    unplaced.push(row);
    return notPlaced(place);
  });
  const leftOut = unplaced.map((row) => ({ line: lines[row]!, ...reasonUnplaced }));
  const settled = withoutRows(withoutMoved(table, firstMoved), unplaced);
  const stillRagged = new Map([...ragged].filter(([line]) => !sound.has(line)));
  return { table: { ...settled, ragged: stillRagged }, leftOut, problems };
}

/** Values that stand, or could have stood, under a heading and cannot be read there. */
function misfitsUnder(
  plan: ColumnPlan,
  table: RawTable,
  rows: readonly number[],
): ReadonlySet<string> {
  const { spec, position } = plan;
  if (spec === undefined || spec.kind === "text") return new Set();
  const near = new Set(
    rows.flatMap((row) => [
      cellAt(table, row, position),
      cellAt(table, row, position + extraOf(table, row)),
    ]),
  );
  const known = [...near].filter((value) => !isMissing(value));
  const context = { heading: table.headings[position]!, delimiter: "," };
  // A day alone: whether a bare count is one depends on the values beside it.
  const batches = spec.kind === "day" ? known.map((value) => [value]) : [known];
  const unread = batches.flatMap((batch) =>
    readColumn(WrittenColumn.of(batch), spec, context)
      .faults.filter(({ fault }) => fault.code !== "day-two-readings")
      .map(({ row }) => batch[row]!),
  );
  return unread.length === 0 ? new Set() : withoutUsual(new Set(unread), table, position);
}

/** A value that sound rows have there too is at home, though it is not known. */
function withoutUsual(
  unread: Set<string>,
  { columns, lines, ragged }: RawTable,
  position: number,
): ReadonlySet<string> {
  const column = columns[position]!;
  for (const row of column.rowsWhere((value) => unread.has(value))) {
    if (!ragged.has(lines[row]!)) unread.delete(column.at(row)!);
  }
  return unread;
}

/** The first column whose value may have moved; "none" where all fit, "anywhere" where no gap helps. */
function movedFrom(
  table: RawTable,
  row: number,
  misfits: readonly ReadonlySet<string>[],
): number | "none" | "anywhere" {
  const extra = extraOf(table, row);
  const fitsFrom = (shift: number) => (misfit: ReadonlySet<string>, column: number) =>
    misfit.has(cellAt(table, row, column + shift));
  const first = misfits.findIndex(fitsFrom(0));
  if (first < 0) return "none";
  const last = misfits.findLastIndex(fitsFrom(extra));
  const earliest = Math.max(0, extra < 0 ? last + extra + 1 : last);
  return earliest <= first ? earliest : "anywhere";
}

function extraOf({ ragged, lines }: RawTable, row: number): number {
  return ragged.get(lines[row]!)?.extra ?? 0;
}

function cellAt({ columns }: RawTable, row: number, column: number): string {
  return columns[column]?.at(row) ?? "";
}

function hasValueBefore({ columns }: RawTable, row: number, from: number): boolean {
  return columns.slice(0, from).some((column) => column.at(row) !== "");
}

function withoutMoved(table: RawTable, firstMoved: ReadonlyMap<number, number>): RawTable {
  const columns = table.columns.map((column, position) => {
    const moved = [...firstMoved].filter(([, from]) => position >= from);
    return column.with(new Map(moved.map(([row]) => [row, ""])));
  });
  return { ...table, columns };
}

interface RaggedPlace {
  readonly line: number;
  /** Values more, or negative: fewer, than headings. */
  readonly extra: number;
  readonly table: RawTable;
}

function raggedAtEnd(place: RaggedPlace): Problem {
  const { code, remedy } = wordsFor(place);
  const message =
    place.extra < 0
      ? "this row has fewer values than there are headings; the last ones are taken to be missing."
      : "this row has more values than there are headings; the last ones stand under none.";
  return { code, severity: "query", ...factsOf(place), message, remedy };
}

function moved(place: RaggedPlace, heading: string): Problem {
  return {
    code: "row-moved",
    severity: "query",
    ...factsOf(place),
    message: `the values of this row do not fit their headings: from "${heading}" on they may have moved, and are set aside.`,
    remedy: wordsFor(place).remedy,
  };
}

const reasonUnplaced = {
  code: "row-unplaced",
  reason: "its values do not fit the headings, and it cannot be told which of them have moved",
};

function notPlaced(place: RaggedPlace): Problem {
  return {
    code: "row-unplaced",
    severity: "stop",
    ...factsOf(place),
    message: `this row is left out: ${reasonUnplaced.reason}.`,
    remedy: wordsFor(place).remedy,
  };
}

function wordsFor({ extra }: RaggedPlace): { readonly code: string; readonly remedy: string } {
  return extra < 0
    ? { code: "row-short", remedy: "put the missing value or its delimiter back in the file" }
    : {
        code: "row-long",
        remedy: "look for a delimiter inside a value, and put that value in quotes",
      };
}

function factsOf({ line, extra, table }: RaggedPlace) {
  const width = table.headings.length;
  const count = width + extra;
  return {
    place: { line },
    found: `${count} ${count === 1 ? "value" : "values"}`,
    expected: `${width} values`,
  };
}
