/**
 * Calendar days as whole numbers: days since 1970-01-01 in the proleptic Gregorian calendar,
 * without time of day or time zone.
 *
 * The arithmetic is H. Hinnant's `days_from_civil` and `civil_from_days` ("chrono-compatible
 * low-level date algorithms", 2013): years begin in March, so that the leap day comes last, and
 * 400 years are 146,097 days.
 */

export interface DayParts {
  readonly year: number;
  /** 1-12. */
  readonly month: number;
  /** 1-31. */
  readonly day: number;
}

const daysInEra = 146_097;
/** Days from 0000-03-01 to 1970-01-01. */
const epochShift = 719_468;

/** The day of a year (1-9999), month (1-12) and day of the month, or null where there is none. */
export function dayFromParts(year: number, month: number, day: number): number | null {
  if (!isWholeBetween(year, 1, 9999) || !isWholeBetween(month, 1, 12)) return null;
  if (!isWholeBetween(day, 1, daysInMonth(year, month))) return null;
  const marchYear = month <= 2 ? year - 1 : year;
  const era = Math.floor(marchYear / 400);
  const yearOfEra = marchYear - era * 400;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  const leapDays = Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100);
  return era * daysInEra + yearOfEra * 365 + leapDays + dayOfYear - epochShift;
}

/** Year, month and day of a day. The inverse of `dayFromParts`. */
export function partsOfDay(day: number): DayParts {
  const shifted = day + epochShift;
  const era = Math.floor(shifted / daysInEra);
  const dayOfEra = shifted - era * daysInEra;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  );
  const leapDays = Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100);
  const dayOfYear = dayOfEra - (365 * yearOfEra + leapDays);
  const marchMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * marchMonth + 2) / 5) + 1,
  };
}

/** As ISO 8601 writes it: "2025-03-31". */
export function formatDay(day: number): string {
  const { year, month, day: dayOfMonth } = partsOfDay(day);
  return `${pad(year, 4)}-${pad(month, 2)}-${pad(dayOfMonth, 2)}`;
}

/** Days in a month (1-12) of a year. */
export function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeapYear(year) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

function isLeapYear(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

/**
 * Completed years from one day to a later one: a person's age. A birthday on 29 February falls on
 * 1 March in other years. Negative where `to` comes first.
 */
export function wholeYearsBetween(from: number, to: number): number {
  const born = partsOfDay(from);
  const then = partsOfDay(to);
  const beforeBirthday =
    then.month < born.month || (then.month === born.month && then.day < born.day);
  return then.year - born.year - (beforeBirthday ? 1 : 0);
}

function isWholeBetween(value: number, least: number, most: number): boolean {
  return Number.isInteger(value) && value >= least && value <= most;
}

function pad(value: number, width: number): string {
  return String(value).padStart(width, "0");
}
