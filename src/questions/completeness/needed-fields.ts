import { fieldNamed } from "../../cases/dictionary.ts";
import { type CellValue, columnNamed, type Table, type TableColumn } from "../../cases/table.ts";

/** A field that answers rest on, and the rows that ought to have it. */
export interface NeededField {
  readonly column: TableColumn;
  /** Rows in which it applies. */
  readonly needed: readonly number[];
  /** Of these, rows in which it is missing. */
  readonly missing: readonly number[];
}

/**
 * The fields of a table with the rows in which each applies: the concentration of a gas only where
 * there is gas, a cause only where it failed. Left aside are events that need not happen (a death),
 * free notes of the department's own, and columns made on reading. Common practice, no source.
 */
export function neededFields(table: Table, names: Iterable<string>): NeededField[] {
  const read: Read = (name, row) => columnNamed(table, name)?.values[row] ?? null;
  const rows = Array.from({ length: table.columns[0]?.values.length ?? 0 }, (_, row) => row);
  return [...new Set(names)].flatMap((name) => {
    const column = columnNamed(table, name);
    if (column === undefined || !isAsked(column)) return [];
    const applies = conditions.get(name) ?? conditionOf(name);
    const needed = rows.filter((row) => applies(read, row));
    const missing = needed.filter((row) => (column.values[row] ?? null) === null);
    return [{ column, needed, missing }];
  });
}

type Read = (name: string, row: number) => CellValue;

function isAsked({ name, kind }: TableColumn): boolean {
  const field = fieldNamed(name);
  if (field === undefined)
    return kind !== "text" && !/(^|_)(notes?|comments?|remarks?)(_|$)/.test(name);
  return field.madeFrom === undefined && !chances.has(name);
}

/** Events that need not happen: an empty date says that it did not. */
const chances: ReadonlySet<string> = new Set(["death_date", "oil_removed_date"]);

/** What is recorded of the eye before a repair is not recorded again when oil is taken out. */
function conditionOf(name: string): Condition {
  const isBefore = fieldNamed(name)?.group === "the eye before surgery";
  return (read, row) => !isBefore || read("technique", row) !== "oil removal";
}

type Condition = (read: Read, row: number) => boolean;

const conditions: ReadonlyMap<string, Condition> = new Map([
  ["gas_percent", (read, row) => gases.has(read("tamponade", row))],
  ["buckle_element", (read, row) => buckles.has(read("technique", row))],
  ["macula_off_days", (read, row) => read("macula", row) === "off"],
  ["pvr_clock_hours", (read, row) => read("pvr_grade", row) === "C"],
  ["pvr_zone", (read, row) => read("pvr_grade", row) === "C"],
  ["pvr_system", (read, row) => read("pvr_grade", row) !== "none"],
  ["supervisor", (read, row) => isSupervised(read("supervision", row))],
  [
    "redetachment_date",
    (read, row) => hasFailed(read, row) && read("never_attached", row) !== true,
  ],
  ["failure_cause", hasFailed],
  ["reoperation_date", (read, row) => read("reoperation_technique", row) !== null],
  ["reoperation_technique", (read, row) => read("reoperation_date", row) !== null],
  ["acuity_after_date", (read, row) => read("acuity_after", row) !== null],
]);

const gases: ReadonlySet<CellValue> = new Set(["SF6", "C2F6", "C3F8"]);
const buckles: ReadonlySet<CellValue> = new Set(["scleral buckle", "vitrectomy with buckle"]);

function isSupervised(supervision: CellValue): boolean {
  return supervision !== null && supervision !== "independent";
}

/** Any sign in the row that the retina detached again or never lay flat. */
function hasFailed(read: Read, row: number): boolean {
  return (
    read("redetachment_date", row) !== null ||
    read("never_attached", row) === true ||
    read("status_last_seen", row) === "detached"
  );
}
