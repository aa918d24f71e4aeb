import { type CellValue, columnNamed, type Table } from "../cases/table.ts";

/**
 * Operations on one eye in order, the primary repair first.
 *
 * Rows are linked by patient and eye. A row without a patient cannot be linked and stands for an
 * eye of its own, as in files that hold one row an eye.
 */
export interface Episode {
  /** Rows of the case table, in order of day, then of operation number, then of the file. */
  readonly rows: readonly number[];
}

/** A group of rows that is no episode, and why. */
export interface NoEpisode {
  readonly rows: readonly number[];
  readonly reason: string;
}

/** What each row of the case table holds in a field; null where missing or absent. */
export type FieldReader = (field: string, row: number) => CellValue;

export function fieldReader(table: Table): FieldReader {
  return (field, row) => columnNamed(table, field)?.values[row] ?? null;
}

/** Techniques that follow a primary repair and are never one. */
const secondaryTechniques = new Set(["buckle revision", "gas injection", "oil removal"]);

export function episodesOf(
  read: FieldReader,
  rows: number,
): { readonly episodes: readonly Episode[]; readonly without: readonly NoEpisode[] } {
  const groups = new Map<string, number[]>();
  const without: NoEpisode[] = [];
  for (let row = 0; row < rows; row++) {
    const patient = read("patient", row);
    const eye = read("eye", row);
    if (patient !== null && eye === null) {
      without.push({ rows: [row], reason: "which eye is not recorded" });
      continue;
    }
    const key = patient === null ? `row ${row}` : `${eye} eye of ${patient}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  const episodes: Episode[] = [];
  for (const group of groups.values()) {
    const ordered = inOrder(read, group);
    const reason = whyNoEpisode(read, ordered[0] ?? 0);
    if (reason === undefined) episodes.push({ rows: ordered });
    else without.push({ rows: ordered, reason });
  }
  return { episodes, without };
}

function inOrder(read: FieldReader, rows: readonly number[]): number[] {
  const number = (field: string, row: number): number => {
    const value = read(field, row);
    return typeof value === "number" ? value : Number.POSITIVE_INFINITY;
  };
  return [...rows].sort(
    (a, b) =>
      compare(number("operation_date", a), number("operation_date", b)) ||
      compare(number("operation_number", a), number("operation_number", b)) ||
      a - b,
  );
}

function compare(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function whyNoEpisode(read: FieldReader, first: number): string | undefined {
  if (read("operation_date", first) === null) return "the day of the operation is not recorded";
  const number = read("operation_number", first);
  if (typeof number === "number" && number > 1) return "the primary repair is not in the file";
  const technique = read("technique", first);
  if (typeof technique === "string" && secondaryTechniques.has(technique)) {
    return "the first operation in the file is not a primary repair";
  }
  return undefined;
}
