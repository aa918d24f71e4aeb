import { describe, expect, test } from "vitest";
import { dayFromParts } from "../../src/cases/calendar-day.ts";
import { codesOf, readText, valuesOf } from "./read-text.ts";

const headings = "case,operation_date,last_seen_date,redetachment_date,reviewed";
const read = (...rows: string[]) => readText([headings, ...rows].join("\n"));

describe("a column whose order cannot be told from itself", () => {
  test("follows the other dates of the file, and that is said", () => {
    const reading = read(
      "1,25/12/2023,25/06/2024,03/04/2024,2024-07-01",
      "2,01/02/2024,30/06/2024,,",
    );
    expect(valuesOf(reading, "redetachment_date")).toEqual([dayFromParts(2024, 4, 3), null]);
    const told = reading.problems.map(({ code, severity, place }) => [code, severity, place.field]);
    expect(told).toEqual([["day-order-followed", "query", "redetachment_date"]]);
  });

  test("is not kept as told: the next file is asked anew", () => {
    const reading = read("1,25/12/2023,,03/04/2024,");
    const { columns } = reading.matching;
    expect(columns.get("redetachment_date")).toEqual({ field: "redetachment_date" });
    expect(columns.get("operation_date")).toMatchObject({ dayOrder: "day first" });
    const again = readText(`${headings}\n1,25/12/2023,,03/04/2024,`, {
      matching: reading.matching,
    });
    expect(codesOf(again)).toEqual(["day-order-followed"]);
  });

  test("also where the notebook tells the order of the others", () => {
    const columns = new Map([
      ["operation_date", { field: "operation_date", dayOrder: "month first" as const }],
    ]);
    const text = `${headings}\n1,02/03/2024,,04/03/2024,`;
    const reading = readText(text, { matching: { columns, values: new Map() } });
    expect(valuesOf(reading, "redetachment_date")).toEqual([dayFromParts(2024, 4, 3)]);
    expect(codesOf(reading)).toEqual(["day-order-followed"]);
  });

  test("is asked about where the others disagree, or tell nothing", () => {
    const disagreeing = read("1,25/12/2023,06/25/2024,03/04/2024,");
    expect(codesOf(disagreeing)).toContain("day-order-undecided");
    expect(valuesOf(disagreeing, "redetachment_date")).toEqual([null]);
    const silent = read("1,2023-12-25,2024-06-25,03/04/2024,");
    expect(codesOf(silent)).toEqual(["day-order-undecided", "day-two-readings"]);
  });

  test("a column of both orders is asked about all the same", () => {
    const reading = read("1,25/12/2023,25/06/2024,03/04/2024,", "2,25/12/2023,06/25/2024,,");
    expect(codesOf(reading)).toContain("day-order-mixed");
  });
});
