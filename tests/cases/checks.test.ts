import { describe, expect, test } from "vitest";
import { dayFromParts } from "../../src/cases/calendar-day.ts";
import { readText, valuesOf } from "./read-text.ts";

/** What is said of one row, as "severity code field", from headings and rows. */
function found(headings: string, ...rows: string[]): string[] {
  const today = dayFromParts(2025, 1, 1)!;
  const { problems } = readText([headings, ...rows].join("\n"), { today });
  return problems.map(({ severity, code, place }) => `${severity} ${code} ${place.field}`);
}

const dated = "case,operation_date,last_seen_date,redetachment_date,reoperation_date,death_date";

describe("days against each other", () => {
  test.each([
    ["in order", "1,2024-05-01,2024-09-01,2024-06-01,2024-07-01,", []],
    ["all on one day", "1,2024-05-01,2024-05-01,2024-05-01,2024-05-01,2024-05-01", []],
    ["missing", "1,2024-05-01,,,,", []],
    [
      "redetached before",
      "1,2024-05-01,2024-09-01,2024-04-30,,",
      ["stop event-before-operation redetachment_date"],
    ],
    [
      "reoperated before",
      "1,2024-05-01,2024-09-01,,2024-04-30,",
      ["stop event-before-operation reoperation_date"],
    ],
    ["died before", "1,2024-05-01,,,,2024-04-30", ["stop event-before-operation death_date"]],
    [
      "seen before",
      "1,2024-05-01,2024-04-30,,,",
      ["stop last-seen-before-operation last_seen_date"],
    ],
    [
      "redetached after the last visit",
      "1,2024-05-01,2024-06-01,2024-06-02,,",
      ["query event-after-last-seen redetachment_date"],
    ],
    ["in the future", "1,2024-05-01,2025-01-02,,,", ["query day-in-future last_seen_date"]],
    ["today", "1,2024-05-01,2025-01-01,,,", []],
  ])("%s", (_, row, expected) => {
    expect(found(dated, row)).toEqual(expected);
  });
});

const eyes = "case,patient,eye,operation_date,operation_number,technique";

describe("operations of an eye", () => {
  test.each([
    ["in order", ["1,A,R,2024-01-01,1,SB", "2,A,R,2024-02-01,2,PPV", "3,A,L,2024-01-01,1,SB"], []],
    [
      "the same day twice",
      ["1,A,R,2024-01-01,1,SB", "2,A,R,2024-01-01,2,SB"],
      ["stop same-operation-twice operation_date"],
    ],
    [
      "no first",
      ["1,A,R,2024-01-01,2,PPV"],
      ["query later-operation-without-first operation_number"],
    ],
    [
      "a revision first",
      ["1,A,R,2024-01-01,1,oil removal"],
      ["query later-operation-without-first technique"],
    ],
    [
      "against the dates",
      ["1,A,R,2024-02-01,1,SB", "2,A,R,2024-01-01,2,PPV"],
      ["query operations-out-of-order operation_number"],
    ],
    [
      "a number twice",
      ["1,A,R,2024-01-01,1,SB", "2,A,R,2024-02-01,1,PPV"],
      ["query operation-number-twice operation_number"],
    ],
    [
      "eye or patient unknown",
      ["1,A,,2024-01-01,2,SB", "2,,R,2024-01-01,2,PPV"],
      ["query eye-not-known eye", "query eye-not-known patient"],
    ],
  ])("%s", (_, rows, expected) => {
    expect(found(eyes, ...rows)).toEqual(expected);
  });
});

const ended =
  "case,status_last_seen,redetachment_date,never_attached,reoperation_technique,operations_total";

describe("status and dates", () => {
  test.each([
    ["attached", "1,attached,,no,,1", []],
    ["detached with its day", "1,detached,2024-06-01,,,", []],
    ["detached without", "1,detached,,no,,", ["query detached-without-date redetachment_date"]],
    ["detached from the first day", "1,detached,,yes,,", []],
    [
      "attached after redetachment",
      "1,attached,2024-06-01,,,",
      ["query attached-after-redetachment status_last_seen"],
    ],
    ["reattached by an operation", "1,attached,2024-06-01,,PPV,", []],
    ["reattached, operations counted", "1,attached under oil,2024-06-01,,,2", []],
    [
      "never attached and attached",
      "1,attached,,yes,,",
      ["query attached-after-redetachment status_last_seen"],
    ],
    ["unknown", "1,unknown,2024-06-01,,,", []],
  ])("%s", (_, row, expected) => {
    expect(found(ended, row)).toEqual(expected);
  });

  test("a later row of the eye is a reoperation", () => {
    const headings = "case,patient,eye,operation_date,status_last_seen,redetachment_date";
    const first = "1,A,R,2024-01-01,attached,2024-02-01";
    expect(found(headings, first, "2,A,R,2024-02-02,attached,")).toEqual([]);
    expect(found(headings, first, "2,A,L,2024-02-02,attached,")).toEqual([
      "query attached-after-redetachment status_last_seen",
    ]);
  });
});

const signs =
  "patient,eye,operation_date,technique,status_last_seen,redetachment_date,never_attached," +
  "reoperation_date,reoperation_technique,failure_cause,operations_total";

describe("signs of a failure without a day", () => {
  const asked = (field: string) => [`query failure-without-date ${field}`];
  const later = "A,R,2024-02-01,PPV,attached,,,,,";

  test.each([
    ["none", ["A,R,2024-01-01,SB,attached,,,,,,1"], []],
    ["a reoperation", ["A,R,2024-01-01,SB,attached,,,,PPV,,"], asked("reoperation_technique")],
    ["with its day", ["A,R,2024-01-01,SB,attached,,,2024-02-01,PPV,PVR,2"], []],
    ["the removal of oil", ["A,R,2024-01-01,SB,attached,,,,oil removal,,"], []],
    ["a cause", ["A,R,2024-01-01,SB,attached,,,,,PVR,"], asked("failure_cause")],
    ["with a redetachment", ["A,R,2024-01-01,SB,unknown,2024-02-01,,,,PVR,3"], []],
    ["never attached", ["A,R,2024-01-01,SB,unknown,,yes,,,PVR,"], []],
    ["operations", ["A,R,2024-01-01,SB,attached,,,,,,2"], asked("operations_total")],
    ["all there", ["A,R,2024-01-01,SB,,,,,,PVR,2", `${later},2`], []],
    [
      "one missing, said once",
      ["A,R,2024-01-01,SB,,,,,,,3", `${later},3`],
      asked("operations_total"),
    ],
    [
      "a cause, and the removal of oil after it",
      ["A,R,2024-01-01,PPV,,,,,,PVR,", `${later.replace("PPV", "oil removal")},`],
      asked("failure_cause"),
    ],
    [
      "of an eye not known",
      [",,2024-01-01,SB,attached,,,,,PVR,"],
      ["query eye-not-known patient", "query eye-not-known eye", ...asked("failure_cause")],
    ],
  ])("%s", (_, rows, expected) => {
    expect(found(signs, ...rows)).toEqual(expected);
  });

  test("of one eye each: the other eye's later operation is no day", () => {
    const rows = ["A,L,2024-01-01,SB,attached,,,,,PVR,", `${later},`];
    expect(found(signs, ...rows)).toEqual(asked("failure_cause"));
  });
});

const filled = "case,tamponade,oil_removed_date,status_last_seen,gas_unsuitable,technique";

describe("oil and gas", () => {
  test.each([
    ["oil removed", "1,oil,2024-06-01,attached,,PPV", []],
    ["oil in", "1,oil,,attached under oil,,PPV", []],
    ["oil not accounted for", "1,oil,,attached,,PPV", ["query oil-unaccounted oil_removed_date"]],
    ["oil and status unknown", "1,oil,,unknown,,PPV", []],
    ["gas where unsuitable", "1,SF6,,attached,yes,PPV", ["query gas-where-unsuitable tamponade"]],
    [
      "gas by technique",
      "1,,,attached,yes,pneumatic retinopexy",
      ["query gas-where-unsuitable technique"],
    ],
    ["no gas where unsuitable", "1,none,,attached,yes,SB", []],
    ["gas where suitable", "1,C3F8,,attached,no,PPV", []],
  ])("%s", (_, row, expected) => {
    expect(found(filled, row)).toEqual(expected);
  });
});

describe("a day to come", () => {
  const today = dayFromParts(2025, 1, 1)!;
  const read = (row: string) =>
    readText(`${dated},status_last_seen,next_visit\n${row}\n`, { today });

  test("is set aside: it lengthens no follow-up, and no other day is measured by it", () => {
    const reading = read("1,2024-05-01,2034-09-01,2024-06-01,,,attached,2025-06-01");
    expect(reading.problems.map(({ code, place }) => `${code} ${place.field}`)).toEqual([
      "day-in-future last_seen_date",
      "attached-after-redetachment status_last_seen",
    ]);
    expect(valuesOf(reading, "last_seen_date")).toEqual([null]);
  });

  test("is not said to be missing too", () => {
    const reading = read("1,2024-05-01,2024-09-01,2034-06-01,,,detached,2025-06-01");
    expect(reading.problems.map(({ code }) => code)).toEqual(["day-in-future"]);
    expect(valuesOf(reading, "redetachment_date")).toEqual([null]);
  });

  test("in a column of the department's own stays: a next visit lies ahead", () => {
    const reading = read("1,2024-05-01,2024-09-01,,,,attached,2025-06-01");
    expect(reading.problems).toEqual([]);
    expect(valuesOf(reading, "next_visit")).toEqual([dayFromParts(2025, 6, 1)]);
  });
});

describe("a redetachment in the row of the operation that it led to", () => {
  const headings = "case,patient,eye,operation_date,status_last_seen,redetachment_date";
  const first = "1,A,R,2024-01-01,detached,";
  const query = "query redetachment-before-reoperation redetachment_date";
  const stop = "stop event-before-operation redetachment_date";

  test.each([
    ["between the two operations", "2,A,R,2024-03-01,attached,2024-02-20", [query]],
    ["on the day of the first", "2,A,R,2024-03-01,attached,2024-01-01", [query]],
    ["before the first", "2,A,R,2024-03-01,attached,2023-12-31", [stop]],
    ["of the other eye", "2,A,L,2024-03-01,attached,2024-02-20", [stop]],
  ])("%s", (_, second, expected) => {
    const isFirstAsked = expected[0] === stop;
    const asked = isFirstAsked ? ["query detached-without-date redetachment_date"] : [];
    expect(found(headings, first, second).sort()).toEqual([...asked, ...expected]);
  });

  test("is kept in its row", () => {
    const reading = readText([headings, first, "2,A,R,2024-03-01,attached,2024-02-20"].join("\n"));
    expect(valuesOf(reading, "redetachment_date")).toEqual([null, dayFromParts(2024, 2, 20)]);
  });

  test("is measured by the operation before, whatever the order of rows", () => {
    const third = "3,A,R,2024-06-01,attached,2024-02-20";
    const second = "2,A,R,2024-03-01,detached,";
    expect(found(headings, third, second, first)).toContain(stop);
    expect(found(headings, third.replace("-02-20", "-05-20"), second, first)).toContain(query);
  });
});

test("a row is left out once, with its reason, and the others keep their lines and numbers", () => {
  const text = [
    eyes.replace(",operation_number", ",last_seen_date"),
    "a,A,R,2024-02-01,2024-01-01,SB",
    "b,A,R,2024-01-01,2024-05-01,SB",
    "c,A,R,2024-03-01,2024-05-01,PPV",
  ].join("\n");
  const reading = readText(text);
  expect(reading.leftOut).toEqual([
    {
      line: 2,
      code: "last-seen-before-operation",
      reason: "the eye was last seen before its operation",
      patient: "P001",
      eye: "right",
    },
  ]);
  expect(reading.lines).toEqual([3, 4]);
  const numbers = reading.cases.columns.find(({ name }) => name === "operation_number");
  expect(numbers?.values).toEqual([1, 3]);
});

describe("operations are numbered before rows are left out", () => {
  const headings = "patient,eye,operation_date,last_seen_date";

  test("a stopped primary repair does not make the reoperation the first", () => {
    const reading = readText(
      [headings, "A,R,2024-01-01,2023-01-01", "A,R,2024-02-01,2024-05-01"].join("\n"),
    );
    expect(valuesOf(reading, "operation_number")).toEqual([2]);
    expect(reading.problems.map(({ code }) => code)).toEqual([
      "last-seen-before-operation",
      "later-operation-without-first",
    ]);
  });

  test("a row that says again what another says is none of its own", () => {
    const row = "A,R,2024-01-01,2024-05-01";
    const reading = readText([headings, row, row, "A,R,2024-02-01,2024-05-01"].join("\n"));
    expect(valuesOf(reading, "operation_number")).toEqual([1, 2]);
  });
});
