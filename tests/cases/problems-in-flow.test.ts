import { describe, expect, test } from "vitest";
import type { CaseReading } from "../../src/cases/case-reading.ts";
import { ask, casesValue } from "../questions/ask.ts";
import { catalogued, readBroken } from "./problem-catalogue.ts";

/** Readings of the broken files, those of corrections and keys left aside. */
async function readings(): Promise<ReadonlyMap<string, CaseReading>> {
  const read = await Promise.all(
    catalogued().map(async (code) => [code, await readBroken(code)] as const),
  );
  return new Map(read.filter((each): each is [string, CaseReading] => "cases" in each[1]));
}

const all = await readings();

describe("stops and queries of every broken file, in the boxes of the flow", () => {
  test.each([...all])("%s", (_, reading) => {
    const { lines, leftOut, problems, rowsRead } = reading;
    expect(lines.length + leftOut.length).toBe(rowsRead);
    const { figures, answer } = ask("case_flow(cases)", { cases: casesValue(reading) });
    expect(figures).toMatchObject({
      rows_read: rowsRead,
      rows_kept: lines.length,
      rows_stopped: leftOut.length,
    });
    const leaving = answer.leftOut.reduce((sum, { count }) => sum + count, 0);
    expect(leaving).toBe(leftOut.length);
    const asked = problems.filter(({ severity }) => severity === "query");
    const keyed = asked.map(({ place }) => `${place.file} ${place.line}`);
    const files = reading.files ?? [reading.file];
    const kept = lines.map((line, row) => `${files[reading.fileOf?.[row] ?? 0]?.name} ${line}`);
    expect(figures).toMatchObject({
      rows_queried: kept.filter((row) => keyed.includes(row)).length,
    });
  });

  test("a row is stopped by a problem that names its line, and the other way about", () => {
    for (const [code, { leftOut, problems, file, files }] of all) {
      const stops = problems.filter(({ severity, place }) => severity === "stop" && place.line);
      const named = stops.map(({ place, code: why }) => `${place.file} ${place.line} ${why}`);
      const left = leftOut.map((row) => `${row.file ?? file.name} ${row.line} ${row.code}`);
      const isWhole = problems.some(({ severity, place }) => severity === "stop" && !place.line);
      if (!isWhole && files === undefined) expect(left.sort(), code).toEqual(named.sort());
      for (const row of named) expect(left, code).toContain(row);
    }
    expect(all.size).toBeGreaterThan(70);
  });
});
