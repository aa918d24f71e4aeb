import { dayNumber, dayText, isPossible, nearestPossible, readDay } from "./calendar.ts";
import type { Piece } from "./piece.ts";

export function readIsoDay(piece: Piece): void {
  const [year = "", month = "", day = ""] = piece.source.split("-");
  const text = `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
  if (text === piece.source) readPossibleDay(piece, text);
  else {
    piece.fault("day-form", {
      message: "a day is written with two digits for the month and two for the day.",
      found: piece.source,
      expected: text,
      replacement: text,
    });
    piece.token("day", text, nearestDay(text));
  }
}

function readPossibleDay(piece: Piece, text: string): void {
  const nearest = nearestDay(text);
  const parts = readDay(text);
  if (parts === null || !isPossible(parts)) {
    piece.fault("impossible-day", {
      message: "this is not a calendar day.",
      found: text,
      expected: `a day that exists, such as ${dayText(nearest)}`,
      replacement: dayText(nearest),
    });
  }
  piece.token("day", text, nearest);
}

function nearestDay(text: string): number {
  return dayNumber(nearestPossible(readDay(text) ?? { year: 1, month: 1, day: 1 }));
}

/** `31/03/2025`: offered as a mend only where just one reading of day and month is possible. */
export function readOtherDay(piece: Piece): void {
  const [first = "", second = "", year = ""] = piece.source.split(/[/.]/);
  const dayFirst = isoIfPossible(year, second, first);
  const monthFirst = isoIfPossible(year, first, second);
  const only = dayFirst === null ? monthFirst : monthFirst === null ? dayFirst : null;
  const same = dayFirst !== null && dayFirst === monthFirst ? dayFirst : only;
  piece.unreadable("day-form", {
    message: "a day is written with the year first, then month, then day.",
    found: piece.source,
    expected: same ?? "a day such as 2025-03-31",
    ...(same === null ? {} : { replacement: same }),
  });
}

function isoIfPossible(year: string, month: string, day: string): string | null {
  const parts = { year: Number(year), month: Number(month), day: Number(day) };
  return isPossible(parts) ? dayText(dayNumber(parts)) : null;
}
