import { calendarDay, dayNumber, daysInMonth, isPossible } from "../calendar.ts";
import type { Kind } from "../kinds.ts";
import type { Word } from "../vocabulary.ts";
import { required } from "./parameters.ts";
import { type PlainWord, plainWord } from "./plain-word.ts";

/** Words over days and lengths of time, in the Gregorian calendar and in whole days. */
export const dayWords: readonly Word[] = [
  oneDay("year", "the year of a day", (day) => calendarDay(day).year),
  oneDay("month", "the month of a day, 1 to 12", (day) => calendarDay(day).month),
  oneDay("day_of", "the day of the month, 1 to 31", (day) => calendarDay(day).day),
  oneDay("quarter", "the quarter of the year, 1 to 4", (day) =>
    Math.ceil(calendarDay(day).month / 3),
  ),
  oneDay("weekday", "the day of the week, from 1 for Monday to 7 for Sunday", weekday),
  oneDay("first_of_month", "the first day of the day's month", firstOfMonth, "day"),
  oneDay("first_of_year", "the first day of the day's year", firstOfYear, "day"),
  {
    name: "day_from",
    meaning: "the day of a year, a month and a day of the month; no answer for one that is none",
    parameters: [
      required("year", ["number"], "1 to 9999"),
      required("month", ["number"], "1 to 12"),
      required("day_of", ["number"], "the day of the month"),
    ],
    answers: "day" as const,
    apply: (year: number, month: number, day: number) =>
      isPossible({ year, month, day }) ? dayNumber({ year, month, day }) : Number.NaN,
  },
  {
    name: "days_between",
    meaning: "the length of time from one day to another, below zero where it lies before",
    parameters: [
      required("from", ["day"], "the day to count from"),
      required("to", ["day"], "the day to count to"),
    ],
    answers: "duration" as const,
    apply: (from: number, to: number) => to - from,
  },
  {
    name: "age_at",
    meaning: "whole years lived on a day; born on 29 February, a year older on 1 March",
    parameters: [
      required("birth", ["day"], "the day of birth"),
      required("day", ["day"], "the day to count to"),
    ],
    answers: "number" as const,
    apply: ageAt,
  },
  {
    name: "months_after",
    meaning: "the same day so many calendar months on, or the last day of a shorter month",
    parameters: [
      required("day", ["day"], "the day to count from"),
      required("months", ["number"], "a whole number of months, below zero to count back"),
    ],
    answers: "day" as const,
    apply: monthsAfter,
  },
  oneLength("days_in", "a length of time as a number of days", 1),
  oneLength("weeks_in", "a length of time as a number of weeks of 7 days", 7),
  oneLength("months_in", "a length of time as a number of months of 30.4375 days", 30.4375),
  oneLength("years_in", "a length of time as a number of years of 365.25 days", 365.25),
].map((plan) => plainWord(plan as PlainWord));

function oneDay(
  name: string,
  meaning: string,
  apply: (day: number) => number,
  answers: Kind = "number",
): PlainWord {
  return { name, meaning, parameters: [required("day", ["day"], "the day")], answers, apply };
}

function oneLength(name: string, meaning: string, days: number): PlainWord {
  return {
    name,
    meaning,
    parameters: [required("length", ["duration"], "the length of time")],
    answers: "number",
    apply: (length: number) => length / days,
  };
}

/** 1970-01-01 was a Thursday, 4 as ISO 8601 counts. */
function weekday(day: number): number {
  return ((((day + 3) % 7) + 7) % 7) + 1;
}

function firstOfMonth(day: number): number {
  return dayNumber({ ...calendarDay(day), day: 1 });
}

function firstOfYear(day: number): number {
  return dayNumber({ year: calendarDay(day).year, month: 1, day: 1 });
}

/** No answer for a day before birth. */
function ageAt(birth: number, day: number): number {
  if (day < birth) return Number.NaN;
  const born = calendarDay(birth);
  const then = calendarDay(day);
  const isBeforeBirthday =
    then.month < born.month || (then.month === born.month && then.day < born.day);
  return then.year - born.year - (isBeforeBirthday ? 1 : 0);
}

function monthsAfter(day: number, months: number): number {
  if (!Number.isInteger(months)) return Number.NaN;
  const from = calendarDay(day);
  const month = from.year * 12 + from.month - 1 + months;
  const year = Math.floor(month / 12);
  const to = { year, month: month - year * 12 + 1 };
  const parts = { ...to, day: Math.min(from.day, daysInMonth(to.year, to.month)) };
  return isPossible(parts) ? dayNumber(parts) : Number.NaN;
}
