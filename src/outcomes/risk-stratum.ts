import type { CellValue } from "../cases/table.ts";
import type { FieldReader } from "./episode.ts";

/**
 * Pre-operative factors for failure by scar tissue (proliferative vitreoretinopathy).
 *
 * PVR already there (grade B or C), vitreous haemorrhage and smoking: common practice, no source.
 * Aphakia, uveitis, more than two quadrants detached, giant tear, choroidal detachment: Retina
 * 1994;14:417. Counted, never weighted, and never turned into a probability.
 */
export const riskFactors: readonly RiskFactor[] = [
  { name: "PVR", present: (read) => oneOf(read("pvr_grade"), ["B", "C"]) },
  { name: "vitreous haemorrhage", present: (read) => truth(read("vitreous_haemorrhage")) },
  { name: "current smoker", present: (read) => oneOf(read("smoker"), ["current"]) },
  { name: "aphakia", present: (read) => oneOf(read("lens"), ["aphakic"]) },
  { name: "uveitis", present: (read) => truth(read("uveitis")) },
  { name: "more than two quadrants", present: moreThanTwoQuadrants },
  { name: "giant tear", present: (read) => oneOf(read("break_type"), ["giant tear"]) },
  { name: "choroidal detachment", present: (read) => truth(read("choroidal_detachment")) },
];

export interface RiskFactor {
  readonly name: string;
  /** True, false, or null where the record does not say. */
  readonly present: (read: (field: string) => CellValue) => boolean | null;
}

/** Low: no factor. Middle: one. High: two or more. */
export const riskStrata = ["low", "middle", "high"] as const;
export type RiskStratum = (typeof riskStrata)[number];

export interface RiskOfEye {
  /** Factors recorded as present. */
  readonly present: readonly string[];
  /** Factors on which the record is silent, of those that the file has a column for. */
  readonly silent: readonly string[];
  /** The stratum, or null where the silent factors could move it: a range is never guessed at. */
  readonly stratum: RiskStratum | null;
}

/**
 * The factors of one eye, of those that the file has a column for. With no such factor there is
 * no stratum; with some of them the stratum is by those alone, which answers have to say.
 */
export function riskOfEye(
  read: FieldReader,
  row: number,
  factors: readonly RiskFactor[] = riskFactors,
): RiskOfEye {
  const found = factors.map((factor) => ({
    name: factor.name,
    present: factor.present((field) => read(field, row)),
  }));
  const present = found.filter((each) => each.present === true).map((each) => each.name);
  const silent = found.filter((each) => each.present === null).map((each) => each.name);
  if (factors.length === 0) return { present, silent, stratum: null };
  const lowest = stratumOf(present.length);
  const highest = stratumOf(present.length + silent.length);
  return { present, silent, stratum: lowest === highest ? lowest : null };
}

/** The factors that the file has any column for. */
export function recordedFactors(hasField: (field: string) => boolean): readonly RiskFactor[] {
  return riskFactors.filter((factor) => {
    let recorded = false;
    factor.present((field) => {
      recorded = recorded || hasField(field);
      return null;
    });
    return recorded;
  });
}

function stratumOf(factors: number): RiskStratum {
  return factors === 0 ? "low" : factors === 1 ? "middle" : "high";
}

function truth(value: CellValue): boolean | null {
  return typeof value === "boolean" ? value : null;
}

function oneOf(value: CellValue, codes: readonly string[]): boolean | null {
  if (value === null) return null;
  const written = Array.isArray(value) ? value : [value];
  return written.some((code) => codes.includes(String(code)));
}

/** A quarter of the retina is three clock hours; a started quadrant counts. */
function moreThanTwoQuadrants(read: (field: string) => CellValue): boolean | null {
  const quadrants = read("quadrants_detached");
  if (typeof quadrants === "number") return quadrants > 2;
  const hours = read("clock_hours_detached");
  return typeof hours === "number" ? Math.ceil(hours / 3) > 2 : null;
}
