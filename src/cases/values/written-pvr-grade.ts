export interface PvrGrade {
  readonly grade: "none" | "A" | "B" | "C";
  /** Which classification, where the writing tells. */
  readonly system?: "1983" | "1991";
  /** Extent of grade C (1991), in clock hours: of both zones, the greater. */
  readonly clockHours?: number;
  readonly zone?: "anterior" | "posterior" | "both";
  /** Grade D of 1983. */
  readonly isMassive?: true;
}

/**
 * Reads a grade as written, or gives undefined. A, B and C alone are in both classifications.
 * Of 1983 (Retina Society; Ophthalmology 1983;90:121): C1 to C3, quadrants of fixed folds; D1 to
 * D3. Of 1991 (Machemer and others; Am J Ophthalmol 1991;112:159): C with P or A and 1 to 12
 * clock hours, "CP3", "C3 P", "CA2 CP4"; C4 to C12 can only be clock hours.
 */
export function writtenPvrGrade(written: string): PvrGrade | undefined {
  const text = written
    .toUpperCase()
    .replace(/^(PVR|GRADE|STAGE|\s|[-:])+/, "")
    .replaceAll(/[\s\-/,;+&]+/g, "");
  if (/^(NONE|NO|N|NIL|0|ABSENT|NOPVR)$/.test(text)) return { grade: "none" };
  if (text === "A" || text === "B" || text === "C") return { grade: text };
  if (/^D[1-3]?$/.test(text)) return { grade: "C", system: "1983", isMassive: true };
  return gradeC(text);
}

function gradeC(text: string): PvrGrade | undefined {
  const alone = /^C(\d{1,2})$/.exec(text);
  if (alone !== null) return extentAlone(Number(alone[1]));
  const parts =
    /^C(?:([AP])(\d{1,2})?|(\d{1,2})([AP]))(?:C?(?:([AP])(\d{1,2})?|(\d{1,2})([AP])))?$/.exec(text);
  if (parts === null) return undefined;
  const [first, second] = [parts[1] ?? parts[4], parts[5] ?? parts[8]];
  const hours = [parts[2] ?? parts[3], parts[6] ?? parts[7]]
    .filter((part) => part !== undefined)
    .map(Number);
  if (first === second || hours.some((hour) => hour < 1 || hour > 12)) return undefined;
  const zone = second !== undefined ? "both" : first === "A" ? "anterior" : "posterior";
  const extent = hours.length === 0 ? {} : { clockHours: Math.max(...hours) };
  return { grade: "C", system: "1991", zone, ...extent };
}

function extentAlone(count: number): PvrGrade | undefined {
  if (count < 1 || count > 12) return undefined;
  if (count <= 3) return { grade: "C", system: "1983" };
  return { grade: "C", system: "1991", clockHours: count };
}
