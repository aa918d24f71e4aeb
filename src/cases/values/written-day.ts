import { dayFromParts } from "../calendar-day.ts";

/**
 * What a text says as a calendar day, before it is known in which order its column writes days:
 * - `day`: one reading only (ISO 8601, a month by name)
 * - `numeric`: two numbers and a year; a reading that is no calendar day is null
 * - `serial`: days since 1899-12-30, as spreadsheets count them
 * - `impossible`: of a known shape, and no calendar day
 */
export type WrittenDay =
  | { readonly shape: "day"; readonly day: number }
  | {
      readonly shape: "numeric";
      readonly dayFirst: number | null;
      readonly monthFirst: number | null;
    }
  | { readonly shape: "serial"; readonly day: number }
  | { readonly shape: "impossible" }
  | { readonly shape: "unknown" };

const timeOfDay = String.raw`(?:[T ,]+\d{1,2}[:.]\d{2}(?:[:.]\d{2}(?:[.,]\d+)?)?\s*(?:[ap]\.?m\.?)?\s*(?:Z|[+-]\d{2}:?\d{2})?)?`;
const yearFirst = new RegExp(String.raw`^(\d{4})([-/. ])(\d{1,2})\2(\d{1,2})${timeOfDay}$`, "i");
const compact = /^(\d{4})(\d{2})(\d{2})$/;
const yearLast = new RegExp(
  String.raw`^(\d{1,2})\s*([-/. ])\s*(\d{1,2})\s*\2\s*(\d{4}|\d{2})${timeOfDay}$`,
  "i",
);
const dayThenName = new RegExp(
  String.raw`^(\d{1,2})(?:st|nd|rd|th)?[-/. ]*(?:of )?([a-z]{3,9})\.?,?[-/. ]*(\d{4}|\d{2})${timeOfDay}$`,
  "i",
);
const nameThenDay = new RegExp(
  String.raw`^([a-z]{3,9})\.?[-/. ]*(\d{1,2})(?:st|nd|rd|th)?(?:,\s*|[-/. ]+)(\d{4}|\d{2})${timeOfDay}$`,
  "i",
);
const weekday = /^(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*,?\s+/i;

/** Reads a text that is not missing. The time of day, where there is one, is left aside. */
export function writtenDay(written: string): WrittenDay {
  const text = written.replace(weekday, "");
  const iso = yearFirst.exec(text);
  if (iso !== null) return oneReading(Number(iso[1]), Number(iso[3]), Number(iso[4]));
  const numeric = yearLast.exec(text);
  if (numeric !== null) return twoReadings(Number(numeric[1]), Number(numeric[3]), numeric[4]!);
  const digits = compact.exec(text);
  if (digits !== null) return oneReading(Number(digits[1]), Number(digits[2]), Number(digits[3]));
  return serial(text) ?? named(text);
}

function oneReading(year: number, month: number, day: number): WrittenDay {
  const read = plausibleDay(year, month, day);
  return read === null ? { shape: "impossible" } : { shape: "day", day: read };
}

function twoReadings(first: number, second: number, yearWritten: string): WrittenDay {
  const year = fullYear(yearWritten);
  const dayFirst = plausibleDay(year, second, first);
  const monthFirst = plausibleDay(year, first, second);
  if (dayFirst === null && monthFirst === null) return { shape: "impossible" };
  return { shape: "numeric", dayFirst, monthFirst };
}

/** Five digits: 20000 is 1954-10-03 and 73050 is 2099-12-31. 25569 is 1970-01-01. */
function serial(text: string): WrittenDay | undefined {
  if (!/^\d{5}(?:\.\d+)?$/.test(text)) return undefined;
  const count = Math.floor(Number(text));
  return count >= 20_000 && count <= 73_050
    ? { shape: "serial", day: count - 25_569 }
    : { shape: "unknown" };
}

function named(text: string): WrittenDay {
  const dayFirst = dayThenName.exec(text);
  const nameFirst = dayFirst === null ? nameThenDay.exec(text) : null;
  const name = dayFirst?.[2] ?? nameFirst?.[1];
  const month = name === undefined ? undefined : monthOf(name);
  if (month === undefined) return { shape: "unknown" };
  const day = Number(dayFirst?.[1] ?? nameFirst?.[2]);
  return oneReading(fullYear(dayFirst?.[3] ?? nameFirst?.[3] ?? ""), month, day);
}

const months = [
  ["jan", "january"],
  ["feb", "february"],
  ["mar", "march"],
  ["apr", "april"],
  ["may"],
  ["jun", "june"],
  ["jul", "july"],
  ["aug", "august"],
  ["sep", "sept", "september"],
  ["oct", "october"],
  ["nov", "november"],
  ["dec", "december"],
];

function monthOf(name: string): number | undefined {
  const found = months.findIndex((names) => names.includes(name.toLowerCase()));
  return found < 0 ? undefined : found + 1;
}

/** Two digits as POSIX reads them: 69 to 99 are 1969 to 1999, 00 to 68 are 2000 to 2068. */
function fullYear(written: string): number {
  const year = Number(written);
  if (written.length !== 2) return year;
  return year >= 69 ? 1900 + year : 2000 + year;
}

/** No date of a case lies outside 1900 to 2100: a slip of the year is not a day. */
function plausibleDay(year: number, month: number, day: number): number | null {
  return year < 1900 || year > 2100 ? null : dayFromParts(year, month, day);
}
