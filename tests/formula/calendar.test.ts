import { describe, expect, it } from "vitest";
import {
  calendarDay,
  dayNumber,
  daysInMonth,
  dayText,
  firstDay,
  isPossible,
  lastDay,
  nearestPossible,
  readDay,
} from "../../src/formula/calendar.ts";

describe("days", () => {
  it("agree with the language's own calendar (ECMA-262) for every day of 1899 to 2101", () => {
    const from = Date.UTC(1899, 0, 1) / 86_400_000;
    const to = Date.UTC(2101, 11, 31) / 86_400_000;
    const days = Array.from({ length: to - from + 1 }, (_, i) => from + i);
    const theirs = days.map((day) => new Date(day * 86_400_000).toISOString().slice(0, 10));
    expect(days.map(dayText)).toEqual(theirs);
    expect(theirs.map((text) => dayNumber(readDay(text)!))).toEqual(days);
  });

  it("agree with it at every month's end of 0001 to 9999", () => {
    for (let year = 1; year <= 9999; year += 7) {
      for (let month = 1; month <= 12; month++) {
        const last = new Date(0);
        last.setUTCFullYear(year, month, 0);
        expect(daysInMonth(year, month)).toBe(last.getUTCDate());
        const number = Math.round(last.getTime() / 86_400_000);
        expect(dayNumber({ year, month, day: last.getUTCDate() })).toBe(number);
        expect(calendarDay(number)).toEqual({ year, month, day: last.getUTCDate() });
      }
    }
  });

  it("begin at 0001-01-01 and end at 9999-12-31", () => {
    expect(dayText(firstDay)).toBe("0001-01-01");
    expect(dayText(lastDay)).toBe("9999-12-31");
  });

  it("know what is possible, and the nearest to what is not", () => {
    expect(isPossible({ year: 2024, month: 2, day: 29 })).toBe(true);
    expect(isPossible({ year: 1900, month: 2, day: 29 })).toBe(false);
    expect(isPossible({ year: 2000, month: 2, day: 29 })).toBe(true);
    expect(isPossible({ year: 2025, month: 1.5, day: 1 })).toBe(false);
    expect(nearestPossible({ year: 2025, month: 2, day: 31 })).toEqual({
      year: 2025,
      month: 2,
      day: 28,
    });
    expect(nearestPossible({ year: 0, month: 13, day: 0 })).toEqual({ year: 1, month: 12, day: 1 });
  });
});
