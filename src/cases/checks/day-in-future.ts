import { formatDay } from "../calendar-day.ts";
import { dictionary } from "../dictionary.ts";
import type { CasesToCheck, Finding } from "./check.ts";

const days = dictionary.filter(({ kind }) => kind === "day").map(({ name }) => name);

/** A query, where it is known which day it is. */
export function dayInFuture(cases: CasesToCheck): readonly Finding[] {
  const { today } = cases;
  if (today === undefined) return [];
  return days
    .filter((field) => cases.has(field))
    .flatMap((field) =>
      cases.eachRow((row) => {
        const day = cases.day(field, row);
        if (day === null || day <= today) return undefined;
        return {
          row,
          field,
          code: "day-in-future",
          message: "this day has not come yet.",
          found: formatDay(day),
          expected: `a day up to ${formatDay(today)}`,
          remedy: "correct the date",
        };
      }),
    );
}
