import { expect, test } from "vitest";
import { headingLine, rowLine } from "../../data-demo/csv.ts";
import { generateDemo } from "../../data-demo/generate.ts";
import { readCases } from "../../src/cases/read-cases.ts";
import { indexEyes } from "../../src/outcomes/index-eyes.ts";
import { type FileRow, fileRows, rowsByEye } from "../data-demo/file-rows.ts";

/** The redetachment of each primary repair written in the row of the reoperation instead. */
function recordedWithReoperation(rows: readonly FileRow[]) {
  const moved = new Map<FileRow, string>();
  for (const [primary, second] of rowsByEye(rows).values()) {
    if (second === undefined || second.technique === "oil removal") continue;
    const day = primary!.redetachment_date!;
    if (day === "" || second.redetachment_date !== "" || day >= second.operation_date!) continue;
    moved.set(primary!, "").set(second, day);
  }
  const written = rows.map((row) => ({
    ...row,
    redetachment_date: moved.get(row) ?? row.redetachment_date!,
  }));
  return { rows: written, moved: moved.size / 2 };
}

function read(rows: readonly FileRow[]) {
  const text = `${[headingLine(), ...rows.map(rowLine)].join("\n")}\n`;
  const reading = readCases({ name: "repairs.csv", bytes: new TextEncoder().encode(text) });
  const { time, event, undecided, causes } = indexEyes(reading, {
    failure: "redetachment",
    oil: "followed from removal",
    undecided: "bounds",
  });
  const queries = reading.problems.filter(
    ({ code }) => code === "redetachment-before-reoperation",
  ).length;
  return { outcomes: { time, event, undecided, causes }, queries, leftOut: reading.leftOut };
}

test("a failure counts alike, whichever of the two operations it is recorded with", () => {
  const rows = fileRows(generateDemo(11, { eyes: 3000, faults: false }).csv);
  const other = recordedWithReoperation(rows);
  expect(other.moved).toBeGreaterThan(100);
  const [plain, moved] = [read(rows), read(other.rows)];
  expect(moved.outcomes).toEqual(plain.outcomes);
  expect(moved.leftOut).toEqual(plain.leftOut);
  expect([plain.queries, moved.queries]).toEqual([0, other.moved]);
});
