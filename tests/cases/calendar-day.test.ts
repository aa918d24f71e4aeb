import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  dayFromParts,
  daysInMonth,
  formatDay,
  partsOfDay,
  wholeYearsBetween,
} from "../../src/cases/calendar-day.ts";

/**
 * Julian day number at noon of a Gregorian date: Fliegel and Van Flandern, Communications of the
 * ACM 1968;11:657, with division cut off towards zero.
 */
function julianDayNumber(year: number, month: number, day: number): number {
  const { trunc } = Math;
  const m = trunc((month - 14) / 12);
  return (
    day -
    32_075 +
    trunc((1461 * (year + 4800 + m)) / 4) +
    trunc((367 * (month - 2 - m * 12)) / 12) -
    trunc((3 * trunc((year + 4900 + m) / 100)) / 4)
  );
}

describe("calendar days", () => {
  test("agree with Julian day numbers printed in astronomical tables", () => {
    // Unix epoch JD 2440587.5; J2000 JD 2451545.0 (noon); modified Julian day 0 is 1858-11-17.
    expect(dayFromParts(1970, 1, 1)).toBe(0);
    expect(dayFromParts(2000, 1, 1)).toBe(2_451_545 - 2_440_588);
    expect(dayFromParts(1858, 11, 17)).toBe(-40_587);
  });

  test("agree with Fliegel and Van Flandern on every month from 1600 to 2400", () => {
    for (let year = 1600; year <= 2400; year++) {
      for (let month = 1; month <= 12; month++) {
        expect(dayFromParts(year, month, 1)).toBe(julianDayNumber(year, month, 1) - 2_440_588);
      }
    }
  });

  test("agree with the engine's own calendar on every day from 1890 to 2110, and back", () => {
    const last = Date.UTC(2110, 11, 31) / 86_400_000;
    for (let day = Date.UTC(1890, 0, 1) / 86_400_000; day <= last; day++) {
      const twin = new Date(day * 86_400_000);
      const parts = partsOfDay(day);
      const [year, month] = [twin.getUTCFullYear(), twin.getUTCMonth() + 1];
      if (parts.year !== year || parts.month !== month || parts.day !== twin.getUTCDate()) {
        expect(parts).toEqual({ year, month, day: twin.getUTCDate() });
      }
      if (dayFromParts(parts.year, parts.month, parts.day) !== day) expect(parts).toBe(day);
    }
  });

  test("impossible days are null", () => {
    expect(dayFromParts(2025, 2, 29)).toBeNull();
    expect(dayFromParts(2024, 2, 29)).toBe(19_782);
    expect(dayFromParts(1900, 2, 29)).toBeNull();
    expect(dayFromParts(2000, 2, 29)).toBe(11_016);
    expect(dayFromParts(2025, 4, 31)).toBeNull();
    expect(dayFromParts(2025, 13, 1)).toBeNull();
    expect(dayFromParts(2025, 0, 1)).toBeNull();
    expect(dayFromParts(2025, 1, 0)).toBeNull();
    expect(dayFromParts(2025, 1.5, 1)).toBeNull();
    expect(dayFromParts(Number.NaN, 1, 1)).toBeNull();
  });

  test("months have their days", () => {
    const days = Array.from({ length: 12 }, (_, month) => daysInMonth(2023, month + 1));
    expect(days).toEqual([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]);
  });

  test("are written as ISO 8601 has it", () => {
    expect(formatDay(20_178)).toBe("2025-03-31");
    expect(formatDay(dayFromParts(33, 4, 3)!)).toBe("0033-04-03");
  });

  test("age is completed years", () => {
    const born = dayFromParts(1960, 2, 29)!;
    expect(wholeYearsBetween(born, dayFromParts(2025, 2, 28)!)).toBe(64);
    expect(wholeYearsBetween(born, dayFromParts(2025, 3, 1)!)).toBe(65);
    expect(wholeYearsBetween(born, dayFromParts(2024, 2, 29)!)).toBe(64);
    expect(wholeYearsBetween(born, born)).toBe(0);
  });

  test("no file of this room uses the engine's dates, so that no time zone can matter", () => {
    const room = join(import.meta.dirname, "../../src/cases");
    const files = readdirSync(room, { recursive: true, encoding: "utf8" });
    const sources = files.filter((file) => file.endsWith(".ts"));
    expect(sources.length).toBeGreaterThan(40);
    for (const file of sources) {
      const source = readFileSync(join(room, file), "utf8");
      expect(source, file).not.toMatch(/\bnew Date\b|\bDate\.|\bIntl\b|toLocale/);
    }
  });
});
