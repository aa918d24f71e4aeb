import { type CellValue, columnNamed, type Table } from "../cases/table.ts";

/**
 * Operations on one eye in order, the primary repair first.
 *
 * Rows are linked by patient and eye. In a file without patients every row stands for an eye of
 * its own; in one without the side, every patient with a single row does. A row that cannot be
 * linked in a file that links others belongs to no episode, and says why.
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

export interface CasesToLink {
  readonly read: FieldReader;
  readonly rows: number;
  /** Whether the file has a column for the field. */
  readonly has: (field: string) => boolean;
}

/** Techniques that follow a primary repair and are never one. */
const secondaryTechniques = new Set(["buckle revision", "gas injection", "oil removal"]);

export function episodesOf(cases: CasesToLink): {
  readonly episodes: readonly Episode[];
  readonly without: readonly NoEpisode[];
} {
  const { groups, without } = linkedRows(cases);
  const episodes: Episode[] = [];
  for (const group of groups) {
    const ordered = inOrder(cases.read, group);
    const reason = whyNoEpisode(cases.read, ordered[0] ?? 0);
    if (reason === undefined) episodes.push({ rows: ordered });
    else without.push({ rows: ordered, reason });
  }
  return { episodes, without };
}

function linkedRows({ read, rows, has }: CasesToLink) {
  const groups = new Map<string, number[]>();
  const without: NoEpisode[] = [];
  for (let row = 0; row < rows; row++) {
    const patient = read("patient", row);
    const eye = read("eye", row);
    const reason = whyNotLinked({ patient, eye, has });
    if (reason !== undefined) {
      without.push({ rows: [row], reason });
      continue;
    }
    const key = patient === null ? `row ${row}` : `${eye} eye of ${patient}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  if (has("eye")) return { groups: [...groups.values()], without };
  const single = [...groups.values()].filter((group) => group.length === 1);
  const several = [...groups.values()].filter((group) => group.length > 1);
  const reason = "the patient has several rows and the file has no column for the eye";
  return {
    groups: single,
    without: [...without, ...several.map((group) => ({ rows: group, reason }))],
  };
}

function whyNotLinked(row: {
  readonly patient: CellValue;
  readonly eye: CellValue;
  readonly has: CasesToLink["has"];
}): string | undefined {
  if (!row.has("patient")) return undefined;
  if (row.patient === null) return "the patient is not recorded";
  return row.eye === null && row.has("eye") ? "which eye is not recorded" : undefined;
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
