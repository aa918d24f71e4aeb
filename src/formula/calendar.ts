/**
 * Whole days since 1970-01-01 in the proleptic Gregorian calendar, without time zones.
 *
 * The day counts follow from the calendar's rule alone (a year is a leap year when divisible by
 * 4, but not by 100 unless by 400), reckoned in years that begin on 1 March, so that the leap
 * day stands last: E. G. Richards, Mapping Time, Oxford University Press 1998, chapter 25.
 */
export interface CalendarDay {
  /** 1 to 9999. */
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  /** 1 to 31. */
  readonly day: number;
}

/** 0001-01-01 and 9999-12-31: a working can write no day outside them. */
export const firstDay = -719162;
export const lastDay = 2932896;

/** The day's number. The parts must be a possible day: see `isPossible`. */
export function dayNumber({ year, month, day }: CalendarDay): number {
  const marchYear = month <= 2 ? year - 1 : year;
  const era = Math.floor(marchYear / 400);
  const yearOfEra = marchYear - era * 400;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  const dayOfEra =
    yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146097 + dayOfEra - 719468;
}

/** Year, month and day of a day's number. */
export function calendarDay(number: number): CalendarDay {
  const shifted = number + 719468;
  const era = Math.floor(shifted / 146097);
  const dayOfEra = shifted - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36524) -
      Math.floor(dayOfEra / 146096)) /
      365,
  );
  const dayOfYear =
    dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const marchMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * marchMonth + 2) / 5) + 1,
  };
}

export function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeapYear(year) ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

export function isPossible({ year, month, day }: CalendarDay): boolean {
  const whole = [year, month, day].every(Number.isInteger);
  if (!whole || year < 1 || year > 9999 || month < 1 || month > 12) return false;
  return day >= 1 && day <= daysInMonth(year, month);
}

/** The possible day nearest in year, then month, then day: 2025-02-31 gives 2025-02-28. */
export function nearestPossible({ year, month, day }: CalendarDay): CalendarDay {
  const possibleYear = clamp(year, 1, 9999);
  const possibleMonth = clamp(month, 1, 12);
  const days = daysInMonth(possibleYear, possibleMonth);
  return { year: possibleYear, month: possibleMonth, day: clamp(day, 1, days) };
}

/** `2025-03-31` as parts, or null where it has another form. The day need not be possible. */
export function readDay(text: string): CalendarDay | null {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (match === null) return null;
  return { year: Number(match[1]), month: Number(match[2]), day: Number(match[3]) };
}

/** `2025-03-31`, as ISO 8601 writes it. */
export function dayText(number: number): string {
  const { year, month, day } = calendarDay(number);
  return `${pad(year, 4)}-${pad(month, 2)}-${pad(day, 2)}`;
}

function pad(number: number, digits: number): string {
  return String(number).padStart(digits, "0");
}

function clamp(number: number, least: number, most: number): number {
  return Math.min(Math.max(number, least), most);
}

function isLeapYear(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}
