/**
 * Visual acuity as logMAR: -log10 of the decimal acuity. A line is 0.1, a letter 0.02; letters are
 * 85 - 50 logMAR (Gregori and others, 2010) and never below 0.
 *
 * Low vision has no measured logMAR that all agree on. The tables below are published ones and
 * differ by 0.7 for hand movements: name the table beside every mean.
 */

export type LowVision = "CF" | "HM" | "LP" | "NLP";

/** logMAR for counting fingers, hand movements, light perception and none; null: not measurable. */
export interface LowVisionTable {
  readonly name: string;
  readonly source: string;
  readonly values: Readonly<Record<LowVision, number | null>>;
  /** Counting fingers at d feet is d/200 of normal acuity instead of one value. */
  readonly scalesWithDistance?: true;
}

/** The first one is the default: the only one with a value for each of the four. */
export const lowVisionTables: readonly LowVisionTable[] = [
  {
    name: "Bach",
    source: "M. Bach, visual acuity conversion chart; light perception and none are imputed",
    values: { CF: 1.9, HM: 2.3, LP: 2.7, NLP: 3.0 },
  },
  {
    name: "Schulze-Bonsel 2006",
    source: "Schulze-Bonsel and others, Invest Ophthalmol Vis Sci 2006;47:1236 (0.014 and 0.005)",
    values: { CF: -Math.log10(0.014), HM: -Math.log10(0.005), LP: null, NLP: null },
  },
  {
    name: "Lange 2009",
    source: "Lange and others, Graefes Arch Clin Exp Ophthalmol 2009",
    values: { CF: 1.98, HM: 2.28, LP: null, NLP: null },
  },
  {
    name: "Holladay 1997",
    source: "Holladay, J Refract Surg 1997; J Cataract Refract Surg 2004;30:287 (at 2 feet)",
    values: { CF: 2, HM: 3, LP: null, NLP: null },
    scalesWithDistance: true,
  },
];

export const defaultLowVisionTable: LowVisionTable = lowVisionTables[0]!;

export function logMarFromDecimal(decimal: number): number {
  return decimal === 1 ? 0 : -Math.log10(decimal);
}

/** Of a Snellen fraction: 6/9, 20/40. */
export function logMarFromSnellen(numerator: number, denominator: number): number {
  return Math.log10(denominator / numerator);
}

export function logMarFromLetters(letters: number): number {
  return (85 - letters) / 50;
}

/** Letters of the standard chart; 0 where the acuity is off the chart. */
export function lettersFromLogMar(logMar: number): number {
  return Math.max(0, 85 - 50 * logMar);
}

/** Of low vision in a table; `distanceFeet` matters where the table scales with it. */
export function logMarFromLowVision(
  seen: LowVision,
  table: LowVisionTable,
  distanceFeet?: number,
): number | null {
  if (seen === "CF" && table.scalesWithDistance && distanceFeet !== undefined) {
    return Math.log10(200 / distanceFeet);
  }
  return table.values[seen];
}
