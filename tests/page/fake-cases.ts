import type { CaseRow } from "../../src/page/cases-protocol.ts";
import type { CasesView } from "../../src/page/protocol.ts";

const headings = [
  "case",
  "patient",
  "eye",
  "operation_date",
  "technique",
  "tamponade",
  "macula",
  "pvr_grade",
  "surgeon",
  "last_seen_date",
  "status_last_seen",
];

/** Facts about a file of cases, in the shape in which the worker tells them. */
export const casesView: CasesView = {
  file: "repairs.csv",
  invented: true,
  facts: { name: "repairs.csv", bytes: 81_223, encoding: "UTF-8", delimiter: "," },
  eyes: 442,
  rowsRead: 486,
  casesKept: 480,
  leftOut: 6,
  leftOutReasons: [
    { reason: "the operation has no date", lines: [12, 77, 301] },
    { reason: "the same eye and day twice", lines: [130, 288, 412] },
  ],
  headings,
  columns: headings.map((heading, position) => ({
    heading,
    position,
    name: heading,
    field: heading,
    by: position === 4 ? "guess" : "name",
    sample: ["scleral buckle", "vitrectomy"],
    missing: position,
  })),
  problems: [
    {
      code: "date-unreadable",
      severity: "stop",
      place: { file: "repairs.csv", line: 12, field: "operation_date" },
      message: "this is not a calendar day.",
      found: "31/02/2025",
      expected: "a day such as 2025-03-31",
    },
    {
      code: "out-of-range",
      severity: "query",
      place: { file: "repairs.csv", line: 40, field: "axial_length" },
      message: "the axial length is outside 15 to 40 mm.",
      found: "2.4",
    },
  ],
};

export function caseRow(position: number): CaseRow {
  const eye = position % 2 === 0 ? "right" : "left";
  return {
    line: position + 2,
    texts: headings.map((heading) => (heading === "eye" ? eye : `${heading} ${position}`)),
  };
}
