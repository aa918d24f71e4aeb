import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCases } from "../../../src/cases/read-cases.ts";
import type { Value } from "../../../src/formula/value.ts";
import { eyesValue } from "../../../src/questions/index-eyes.ts";
import { ask, casesValue, workedOut } from "../ask.ts";
import { tableFrom } from "./tables-of.ts";

const reading = readCases({
  name: "repairs.csv",
  bytes: new Uint8Array(readFileSync("data-demo/repairs.csv")),
});
const cases = casesValue(reading);
const eyes = workedOut("index_eyes(cases)", { cases });

/** The eyes that a table's rows still are. */
function eyesOf(working: string): Value {
  const { eyes: record } = tableFrom(working, { cases, eyes });
  if (record === undefined) throw new Error("rows that are no eyes");
  return eyesValue(record);
}

describe("a table made of eyes", () => {
  test("the eyes kept have the failures that choosing them from the start gives", () => {
    const kept = eyesOf('keep(eyes, technique = "scleral buckle")');
    const chosen = workedOut('index_eyes(cases, where: technique = "scleral buckle")', { cases });
    const [one, other] = [kept, chosen].map((value) =>
      ask("failure_rate(eyes, by: macula, within: 6 months)", { eyes: value }),
    );
    expect(one?.rows).toEqual(other?.rows);
    expect(one?.figures).toEqual(other?.figures);
  });

  test("sorted and with a column more they are the same eyes", () => {
    const sorted = eyesOf("with_column(sort_by(eyes, age), old: age >= 60)");
    const figures = (value: Value) =>
      ask("failure_rate(eyes, by: macula)", { eyes: value }).figures;
    expect(figures(sorted)).toEqual(figures(eyes));
    expect(ask("failure_rate(eyes, by: old)", { eyes: sorted }).rows).toEqual(
      ask("failure_rate(eyes, by: age >= 60)", { eyes }).rows,
    );
  });

  test("the flow from rows to eyes still adds up", () => {
    const kept = eyesOf("keep(eyes, age >= 60)");
    const [some, all] = [kept, eyes].map((value) => ask("case_flow(eyes)", { eyes: value }));
    expect(some?.figures.rows_read).toBe(all?.figures.rows_read);
    expect(some?.figures.rows_kept).toBe(all?.figures.rows_kept);
    const gone = (some?.answer.leftOut ?? []).filter(({ reason }) => reason.includes("age >= 60"));
    const lost = gone.reduce((sum, { count }) => sum + count, 0);
    expect(Number(some?.figures.eyes) + lost).toBe(all?.figures.eyes);
  });

  test("a table of cases, or of two tables, is no set of eyes", () => {
    expect(tableFrom("keep(cases, age >= 60)", { cases }).eyes).toBeUndefined();
    expect(tableFrom("join(eyes, cases, on: case)", { cases, eyes }).eyes).toBeUndefined();
  });
});
