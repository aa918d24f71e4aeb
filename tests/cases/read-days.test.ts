import { describe, expect, test } from "vitest";
import { formatDay } from "../../src/cases/calendar-day.ts";
import type { ColumnContext } from "../../src/cases/values/column-reading.ts";
import { readDays } from "../../src/cases/values/read-days.ts";
import { WrittenColumn } from "../../src/cases/written-column.ts";

const context: ColumnContext = { heading: "operation_date", delimiter: "," };

function days(written: readonly string[], given: Partial<ColumnContext> = {}): (string | null)[] {
  const { values } = readDays(WrittenColumn.of(written), { ...context, ...given });
  return values.map((value) => (typeof value === "number" ? formatDay(value) : null));
}

function codes(written: readonly string[], given: Partial<ColumnContext> = {}): string[] {
  const { faults, remarks } = readDays(WrittenColumn.of(written), { ...context, ...given });
  return [...remarks.map(({ code }) => code), ...faults.map(({ fault }) => fault.code)];
}

describe("dates", () => {
  test.each([
    ["2025-03-31", "2025-03-31"],
    ["2025/03/31", "2025-03-31"],
    ["2025.3.31", "2025-03-31"],
    ["20250331", "2025-03-31"],
    ["2025-03-31T23:59:59Z", "2025-03-31"],
    ["2025-03-31 00:00:00", "2025-03-31"],
    ["31/03/2025", "2025-03-31"],
    ["31.3.2025", "2025-03-31"],
    ["31-03-25", "2025-03-31"],
    ["31/03/2025 14:30", "2025-03-31"],
    ["3/31/2025 2:30 PM", "2025-03-31"],
    ["31 Mar 2025", "2025-03-31"],
    ["31-MAR-25", "2025-03-31"],
    ["31st of March, 2025", "2025-03-31"],
    ["March 31, 2025", "2025-03-31"],
    ["Sept 3 2024", "2024-09-03"],
    ["Mon, 31 March 2025", "2025-03-31"],
    ["05/05/2025", "2025-05-05"],
    ["29 Feb 2024", "2024-02-29"],
    // POSIX: 69 to 99 are of the last century.
    ["31/12/68", "2068-12-31"],
    ["31/12/69", "1969-12-31"],
  ])("%s is %s", (written, day) => {
    expect(days([written])).toEqual([day]);
    expect(codes([written])).toEqual([]);
  });

  test.each(["31/02/2025", "2025-02-30", "31 June 2024", "2025-13-01", "31/03/0225", "32/1/2025"])(
    "%s is no day",
    (written) => {
      expect(days([written])).toEqual([null]);
      expect(codes([written])).toEqual(["not-a-day"]);
    },
  );

  test.each(["soon", "12", "1/2", "March 2025", "2025", "6/9", "1;2;2025"])(
    "%s is no date",
    (written) => {
      expect(codes([written])).toEqual(["not-a-day"]);
    },
  );

  test("the column's other rows decide which comes first, the day", () => {
    expect(days(["03/04/2025", "25/12/2024"])).toEqual(["2025-04-03", "2024-12-25"]);
    expect(readDays(WrittenColumn.of(["03/04/2025", "25/12/2024"]), context).settled).toEqual({
      dayOrder: "day first",
    });
  });

  test("or the month", () => {
    expect(days(["03/04/2025", "12/25/2024"])).toEqual(["2025-03-04", "2024-12-25"]);
  });

  test("where none decides, two readings are missing and asked; ISO is read all the same", () => {
    const column = ["03/04/2025", "2025-04-03", "07/07/2025"];
    expect(days(column)).toEqual([null, "2025-04-03", "2025-07-07"]);
    expect(codes(column)).toEqual(["day-order-undecided", "day-two-readings"]);
  });

  test("the notebook decides before all", () => {
    const settled = { dayOrder: "month first" } as const;
    expect(days(["03/04/2025"], { settled })).toEqual(["2025-03-04"]);
    expect(codes(["03/04/2025", "25/12/2024"], { settled })).toEqual([
      "day-order-contradicted",
      "not-a-day",
    ]);
  });

  test("a column of both orders is asked about", () => {
    const column = ["25/12/2024", "12/25/2024", "03/04/2025"];
    expect(days(column)).toEqual(["2024-12-25", "2024-12-25", null]);
    expect(codes(column)).toEqual(["day-order-mixed", "day-two-readings"]);
  });

  test("one slip among many is listed and decides nothing", () => {
    const column = [...Array.from({ length: 60 }, () => "25/12/2024"), "12/26/2024", "03/04/2025"];
    expect(days(column).slice(-2)).toEqual([null, "2025-04-03"]);
    expect(codes(column)).toEqual(["day-order-slip", "not-a-day"]);
  });

  test("counts of days are believed only where the whole column is of them", () => {
    // Spreadsheets count 45747 for 2025-03-31 (1900 system, ISO/IEC 29500-1:2016, 18.17.4).
    expect(days(["45747", "", "45748.5"])).toEqual(["2025-03-31", null, "2025-04-01"]);
    expect(codes(["45747"])).toEqual(["day-counts"]);
    expect(codes(["45747", "2025-03-31"])).toEqual(["not-a-day"]);
  });

  test("missing is missing and not wrong", () => {
    expect(days(["", "-", "n/a", "unknown", "?"])).toEqual([null, null, null, null, null]);
    expect(codes(["", "-", "n/a", "unknown", "?"])).toEqual([]);
  });
});
