import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCases } from "../../../src/cases/read-cases.ts";
import type { Value } from "../../../src/formula/value.ts";
import type { EyeRecord } from "../../../src/outcomes/eye-record.ts";
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

function recordOf(value: Value): EyeRecord {
  if (value.kind !== "thing") throw new Error("no eyes");
  return value.content as EyeRecord;
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
    const [kept, all] = [eyesOf("keep(eyes, age >= 60)"), eyes].map(recordOf);
    const linesOf = ({ lines, leftOut }: EyeRecord) =>
      [...lines, ...leftOut.map((each) => each.lines)].flat().sort((one, other) => one - other);
    expect(linesOf(kept!)).toEqual(linesOf(all!));
    const { flow, lines } = kept!;
    expect(flow.primaryRows + flow.laterRows).toBe(lines.flat().length);
    const left = kept!.leftOut.length - all!.leftOut.length;
    expect(lines.length + left).toBe(all!.lines.length);
  });

  test("eyes with oil and eyes in doubt are the same eyes, at their new rows", () => {
    const [sorted, all] = [eyesOf('sort_by(eyes, age, order: "descending")'), eyes].map(recordOf);
    const oiled = ({ oil, lines }: EyeRecord) =>
      (oil?.eyes ?? []).map((eye) => lines[eye]?.[0] ?? 0).sort((one, other) => one - other);
    const doubted = ({ doubts, lines }: EyeRecord) =>
      (doubts ?? []).map(({ eye }) => lines[eye]?.[0] ?? 0).sort((one, other) => one - other);
    expect(oiled(all!).length).toBeGreaterThan(0);
    expect(oiled(sorted!)).toEqual(oiled(all!));
    expect(doubted(sorted!)).toEqual(doubted(all!));
  });

  test("a table of cases, or of two tables, is no set of eyes", () => {
    expect(tableFrom("keep(cases, age >= 60)", { cases }).eyes).toBeUndefined();
    expect(tableFrom("join(eyes, cases, on: case)", { cases, eyes }).eyes).toBeUndefined();
  });
});
