import type { Problem } from "../../problem/problem.ts";
import { formatDay } from "../calendar-day.ts";
import { fieldNamed } from "../dictionary.ts";
import type { CheckedColumn } from "../read-columns.ts";
import { placeOf, type RowPlaces } from "../row-places.ts";
import type { CellValue } from "../table.ts";
import type { UncheckedCases } from "../unchecked-cases.ts";
import type { CaseChange } from "./join-report.ts";
import type { JoinedCases } from "./joined-cases.ts";

/** Which rows of a second file are rows of the first. */
export interface Pairing {
  /** By row of the second: its row in the first, "new", or "out" where it belongs to none. */
  readonly partners: readonly (number | "new" | "out")[];
  /** Rows of the second in the order in which they are laid over the first. */
  readonly order: readonly number[];
}

/** Two values of one field, which differ. */
export interface Meeting {
  readonly field: string;
  readonly earlier: CellValue;
  readonly later: CellValue;
  /** Row of the second file. */
  readonly row: number;
}

export interface Decision {
  readonly value: CellValue;
  /** What is said of it, where the files disagree. */
  readonly query?: Pick<Problem, "code" | "message" | "remedy">;
}

export type Decide = (meeting: Meeting) => Decision;

/** Lays the rows of a second file over the first, value by value, and adds those that are new. */
export function mergeRows(
  files: { readonly first: UncheckedCases; readonly second: UncheckedCases },
  pairing: Pairing,
  decide: Decide,
): Pick<JoinedCases, "cases" | "report" | "problems"> {
  const merge = new Merge(files.first, files.second, pairing);
  const columns = columnNames(files.first, files.second).map((name) => merge.column(name, decide));
  return {
    cases: { columns, rows: merge.rows() },
    report: merge.report(),
    problems: merge.problems,
  };
}

function columnNames(first: UncheckedCases, second: UncheckedCases): readonly string[] {
  return [...new Set([...first.columns, ...second.columns].map(({ name }) => name))];
}

class Merge {
  readonly problems: Problem[] = [];
  readonly #first: UncheckedCases;
  readonly #second: UncheckedCases;
  readonly #pairing: Pairing;
  readonly #added: readonly number[];
  readonly #changes: (CaseChange & { readonly row: number })[] = [];

  constructor(first: UncheckedCases, second: UncheckedCases, pairing: Pairing) {
    this.#first = first;
    this.#second = second;
    this.#pairing = pairing;
    this.#added = [...pairing.partners.keys()].filter((row) => pairing.partners[row] === "new");
  }

  column(name: string, decide: Decide): CheckedColumn {
    const earlier = this.#first.columns.find((column) => column.name === name);
    const later = this.#second.columns.find((column) => column.name === name);
    const count = this.#first.rows.lines.length;
    const values: CellValue[] = earlier ? [...earlier.values] : new Array(count).fill(null);
    if (later !== undefined) this.#lay(values, later, decide);
    for (const row of this.#added) values.push(later?.values[row] ?? null);
    const spec = earlier ?? later!;
    const order = earlier?.order && later?.order && ordersTogether(earlier.order, later.order);
    return { ...spec, ...(order && { order }), values };
  }

  #lay(values: CellValue[], later: CheckedColumn, decide: Decide): void {
    const { partners, order } = this.#pairing;
    for (const row of order) {
      const partner = partners[row];
      if (typeof partner !== "number") continue;
      const [before, after] = [values[partner]!, later.values[row] ?? null];
      if (isSameValue(before, after)) continue;
      const meeting = { field: later.name, earlier: before, later: after, row };
      const decision = decide(meeting);
      values[partner] = decision.value;
      this.#tell(meeting, decision, { partner, kind: later.kind });
    }
  }

  #tell(
    { field, earlier, later, row }: Meeting,
    { value, query }: Decision,
    at: { readonly partner: number; readonly kind: CheckedColumn["kind"] },
  ): void {
    const { file, line } = placeOf(this.#second.rows, row);
    const place = placeOf(this.#first.rows, at.partner);
    const isMade = fieldNamed(field)?.madeFrom !== undefined;
    if (!isSameValue(earlier, value) && !isMade) {
      this.#changes.push({ place, line, field, from: earlier, to: value, row });
    }
    if (query === undefined || isMade) return;
    this.problems.push({
      ...query,
      severity: "query",
      place: { file, line, field },
      found: describeValue(later, at.kind),
      expected: `${describeValue(earlier, at.kind)}, as in ${place.file}, line ${place.line}`,
    });
  }

  rows(): RowPlaces {
    const [one, two] = [this.#first.rows, this.#second.rows];
    const fileOf = one.fileOf ?? one.lines.map(() => 0);
    return {
      files: [...one.files, ...two.files],
      lines: [...one.lines, ...this.#added.map((row) => two.lines[row]!)],
      fileOf: [...fileOf, ...this.#added.map(() => one.files.length)],
    };
  }

  report(): JoinedCases["report"] {
    const { partners } = this.#pairing;
    const { rows } = this.#second;
    const met = new Set(partners);
    const changed = new Set(this.#changes.map(({ row }) => row));
    const isSame = (row: number) => typeof partners[row] === "number" && !changed.has(row);
    const inOrder = [...this.#changes].sort((one, other) => one.row - other.row);
    return {
      added: this.#added.map((row) => rows.lines[row]!),
      changed: inOrder.map(({ row: _, ...change }) => change),
      same: [...partners.keys()].filter(isSame).map((row) => rows.lines[row]!),
      missing: [...this.#first.rows.lines.keys()]
        .filter((row) => !met.has(row))
        .map((row) => placeOf(this.#first.rows, row)),
    };
  }
}

/** Codes of both; those of the first come first where they are the department's own. */
function ordersTogether(one: readonly string[], other: readonly string[]): readonly string[] {
  return [...new Set([...one, ...other])];
}

export function isSameValue(one: CellValue, other: CellValue): boolean {
  if (!Array.isArray(one) || !Array.isArray(other)) return one === other;
  return one.length === other.length && one.every((code) => other.includes(code));
}

/** "2025-03-31", "yes", "PVR; new break", "nothing". */
function describeValue(value: CellValue, kind: CheckedColumn["kind"]): string {
  if (value === null) return "nothing";
  if (kind === "day") return formatDay(value as number);
  if (typeof value === "boolean") return value ? "yes" : "no";
  return Array.isArray(value) ? value.join("; ") || "none" : String(value);
}
