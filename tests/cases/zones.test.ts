import { readFileSync } from "node:fs";
import { afterEach, expect, test } from "vitest";
import { dayFromParts } from "../../src/cases/calendar-day.ts";
import { columnNamed } from "../../src/cases/table.ts";
import { readText } from "./read-text.ts";

/** With what their clocks differed from Greenwich on 1970-01-01, in minutes. */
const zones = [
  ["Pacific/Auckland", -720],
  ["Europe/London", -60],
  ["America/New_York", 300],
] as const;
const before = process.env.TZ;

afterEach(() => {
  if (before === undefined) delete process.env.TZ;
  else process.env.TZ = before;
});

/** Days about the changes of the clock, in every way of writing them. */
const written = `case,patient,eye,operation_date,last_seen_date,redetachment_date
1,a,R,2024-03-31,31/03/2024,45382
2,b,L,2024-10-27T00:30:00,27-Oct-2024,45592
3,c,R,20241103,3/11/2024,45599
4,d,L,2024-01-01T23:59:59,1 January 2024,45292
`;

test("the same file gives the same days in every zone", () => {
  const read = zones.map(([zone, offset]) => {
    process.env.TZ = zone;
    expect(new Date(0).getTimezoneOffset()).toBe(offset);
    const demo = readText(readFileSync("data-demo/repairs.csv", "utf8"));
    return { small: readText(written), demo: JSON.stringify(demo.cases) };
  });
  const days = [
    dayFromParts(2024, 3, 31),
    dayFromParts(2024, 10, 27),
    dayFromParts(2024, 11, 3),
    dayFromParts(2024, 1, 1),
  ];
  for (const { small, demo } of read) {
    for (const field of ["operation_date", "last_seen_date", "redetachment_date"]) {
      expect(columnNamed(small.cases, field)?.values, field).toEqual(days);
    }
    expect(demo).toBe(read[0]?.demo);
  }
});
