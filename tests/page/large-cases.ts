/** Columns that the dictionary knows; all others are marks of the unit's own. */
const known = ["case", "patient", "eye", "date of operation", "technique"] as const;

export interface Large {
  readonly rows: number;
  readonly columns: number;
  /** The one row with a mark "amber". */
  readonly amberRow: number;
}

/** Invented cases as CSV, of as many rows and columns as are asked for. */
export function largeCases({ rows, columns, amberRow }: Large): string {
  const marks = Array.from({ length: columns - known.length }, (_, n) => `m${n}`);
  const lines = [[...known, ...marks.map((mark) => `mark ${mark}`)].join(",")];
  const plain = marks.join(",");
  for (let row = 1; row <= rows; row++) {
    const eye = row % 2 === 0 ? "left" : "right";
    const technique = row % 3 === 0 ? "scleral buckle" : "vitrectomy";
    const own = row === amberRow ? plain.replace("m20", "amber") : plain;
    lines.push(`${row},U${row},${eye},2024-01-0${1 + (row % 9)},${technique},${own}`);
  }
  return `${lines.join("\n")}\n`;
}
