/** A number as written, apart from its unit. */
export interface WrittenAmount {
  readonly amount: string;
  /** What to multiply by to get the column's unit; null where the unit does not fit. */
  readonly factor: number | null;
}

/**
 * Units as written, by the column's unit: what one of them is in it. Days written over 7 and 52
 * (3/7 is three days, 2/52 two weeks) are common practice, no source.
 */
const units: ReadonlyMap<string, ReadonlyMap<string, number>> = new Map([
  ["days", spellings({ 1: "d day days /7", 7: "w wk wks week weeks /52" })],
  ["years", spellings({ 1: "y yr yrs year years yo" })],
  ["mm", spellings({ 1: "mm millimetre millimetres millimeters", 10: "cm" })],
  ["dioptre", spellings({ 1: "d ds dioptre dioptres diopter diopters" })],
  ["%", spellings({ 1: "% percent pct" })],
  ["clock hours", spellings({ 1: "h hr hrs hour hours ch clockhours clockhour" })],
  ["quadrants", spellings({ 1: "q quad quads quadrant quadrants" })],
]);

/** Parts a written number from the unit glued on. */
export function unitOf(written: string, unit: string | undefined): WrittenAmount {
  const parts = /^([+\-\u2212\u2013]?[\d.,'\u00a0\u202f ]*\d)\s*(\/?[^\d.,/][^/]*|\/7|\/52)$/.exec(
    written,
  );
  if (parts === null) return { amount: written, factor: 1 };
  const spelling = parts[2]!.toLowerCase().replaceAll(/[ .]/g, "");
  const factor = units.get(unit ?? "")?.get(spelling) ?? null;
  return { amount: parts[1]!, factor };
}

function spellings(lines: Readonly<Record<number, string>>): ReadonlyMap<string, number> {
  return new Map(
    Object.entries(lines).flatMap(([factor, words]) =>
      words.split(" ").map((word): [string, number] => [word, Number(factor)]),
    ),
  );
}
