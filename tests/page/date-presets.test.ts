import { describe, expect, it } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { dayNumber, dayText, readDay } from "../../src/formula/calendar.ts";
import { datePresets, operatedBetween } from "../../src/page/worker/date-presets.ts";

const day = (text: string) => dayNumber(readDay(text)!);
const presets = (first: string, last: string, today: string) =>
  datePresets({ first: day(first), last: day(last) }, day(today)).map(
    ({ name, from, to }) => `${name}: ${dayText(from)} to ${dayText(to)}`,
  );

/** Quarters of the calendar, and years from April to March: common practice, no source. */
describe("ranges of dates to choose from", () => {
  it("are the last ones that are over", () => {
    expect(presets("2023-01-04", "2026-11-20", "2026-11-25")).toEqual([
      "last quarter: 2026-07-01 to 2026-09-30",
      "last financial year: 2025-04-01 to 2026-03-31",
      "all: 2023-01-04 to 2026-11-20",
    ]);
  });

  it("are those that hold operations, where the cases end long before today", () => {
    expect(presets("2023-01-04", "2025-12-30", "2026-11-25").slice(0, 2)).toEqual([
      "last quarter: 2025-10-01 to 2025-12-31",
      "last financial year: 2025-04-01 to 2026-03-31",
    ]);
    expect(presets("2023-01-04", "2025-03-31", "2026-11-25")[1]).toBe(
      "last financial year: 2024-04-01 to 2025-03-31",
    );
  });

  it("begin anew on the first day after them", () => {
    expect(presets("2023-01-04", "2026-03-31", "2026-04-01").slice(0, 2)).toEqual([
      "last quarter: 2026-01-01 to 2026-03-31",
      "last financial year: 2025-04-01 to 2026-03-31",
    ]);
    expect(presets("2023-01-04", "2026-03-31", "2026-03-31").slice(0, 2)).toEqual([
      "last quarter: 2025-10-01 to 2025-12-31",
      "last financial year: 2024-04-01 to 2025-03-31",
    ]);
  });

  it("are none without a day of operation", () => {
    expect(datePresets(operatedBetween(undefined), 20_000)).toEqual([]);
    const bytes = new TextEncoder().encode(
      "case,patient,eye,operation_date\n1,a,right,2024-02-03\n2,b,left,2023-05-06\n3,a,right,2025-01-01\n",
    );
    const reading = readCases({ name: "two.csv", bytes }, { today: 20_700 });
    expect(operatedBetween(reading)).toEqual({ first: day("2023-05-06"), last: day("2024-02-03") });
  });
});
