import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import { columnNamed } from "../../src/cases/table.ts";
import type { EyeRecord } from "../../src/outcomes/eye-record.ts";
import { indexEyes } from "../../src/outcomes/index-eyes.ts";
import type {
  FailureDefinition,
  OilTreatment,
  OutcomeRules,
  UndecidedTreatment,
} from "../../src/outcomes/outcome-rules.ts";
import { casesOf, primary } from "./cases-of.ts";

const rules = (
  failure: FailureDefinition = "redetachment",
  oil: OilTreatment = "counted as attached",
  undecided: UndecidedTreatment = "bounds",
): OutcomeRules => ({ failure, oil, undecided });

/** Outcomes in a compact form: "41" failed on day 41, "365+" followed to it, "?" undecided. */
function outcomes(record: EyeRecord): string {
  return Array.from(record.time, (time, eye) => {
    const end = record.event[eye] === 1 ? `${time}` : `${time}+`;
    return record.undecided[eye] === 1 ? `${end}?` : end;
  }).join(" ");
}

const follow = (rows: readonly Record<string, CellValue>[], by = rules()): string =>
  outcomes(indexEyes(casesOf(rows), by));

const seen = (day: number, status = "attached") => ({
  last_seen_date: 1000 + day,
  status_last_seen: status,
});

describe("redetachment", () => {
  test("an eye seen attached is followed to its last visit", () => {
    expect(follow([primary(seen(365))])).toBe("365+");
  });

  test("fails on the day it was first seen detached, treated or not", () => {
    expect(follow([primary({ ...seen(365), redetachment_date: 1041 })])).toBe("41");
  });

  test("a further operation is proof where no day of redetachment is recorded", () => {
    const again = primary({ operation_date: 1050, ...seen(300) });
    expect(follow([primary(seen(45)), again])).toBe("50");
  });

  test("an earlier recorded day goes before the operation", () => {
    const again = primary({ operation_date: 1050, ...seen(300) });
    expect(follow([primary({ ...seen(45), redetachment_date: 1044 }), again])).toBe("44");
  });

  test("never flat after the primary repair: fails on day 0", () => {
    expect(follow([primary({ ...seen(20, "detached"), never_attached: true })])).toBe("0");
  });

  test("detached at the last visit without a day: fails on that visit", () => {
    expect(follow([primary(seen(88, "detached"))])).toBe("88");
  });

  test("a second redetachment does not move the first", () => {
    const again = primary({ operation_date: 1050, redetachment_date: 1100, ...seen(300) });
    expect(follow([primary({ ...seen(45), redetachment_date: 1044 }), again])).toBe("44");
  });

  test("a redetachment recorded with the reoperation that it led to is the first failure", () => {
    const again = primary({ operation_date: 1050, redetachment_date: 1044, ...seen(300) });
    expect(follow([primary(seen(40)), again])).toBe("44");
    const onTheDay = primary({ operation_date: 1050, redetachment_date: 1050, ...seen(300) });
    expect(follow([primary(seen(40)), onTheDay])).toBe("50");
  });

  test("one recorded with a third operation is not of the first course", () => {
    const rows = [
      primary(seen(40)),
      primary({ operation_date: 1050, ...seen(80) }),
      primary({ operation_date: 1100, redetachment_date: 1090, ...seen(300) }),
    ];
    expect(follow(rows)).toBe("50");
  });

  test("one before the primary repair is not believed, whatever row it is in", () => {
    const again = primary({ operation_date: 1050, redetachment_date: 950, ...seen(300) });
    expect(follow([primary(seen(40)), again])).toBe("50");
  });

  test("a redetachment recorded with the removal of oil counts", () => {
    const removal = primary({
      operation_date: 1120,
      technique: "oil removal",
      redetachment_date: 1150,
      ...seen(200),
    });
    expect(follow([primary({ tamponade: "silicone oil", ...seen(110) }), removal])).toBe("150");
  });

  test("death ends follow-up without a failure", () => {
    expect(follow([primary({ ...seen(90), death_date: 1120 })])).toBe("120+");
  });

  test("never seen after the operation: followed for 0 days, undecided", () => {
    expect(follow([primary()])).toBe("0+?");
  });

  test("a day before the operation is not believed", () => {
    expect(follow([primary({ ...seen(90), redetachment_date: 900 })])).toBe("90+");
  });
});

describe("the other definitions", () => {
  const reoperated = [
    primary({ ...seen(40), redetachment_date: 1040 }),
    primary({ operation_date: 1055, ...seen(400) }),
  ];
  const untreated = [primary({ ...seen(100, "detached"), redetachment_date: 1060 })];

  test.each<[FailureDefinition, string, string]>([
    ["redetachment", "40", "60"],
    ["reoperation", "55", "100+"],
    ["not attached without oil", "400+", "100"],
    ["detached at last visit", "400+", "100"],
  ])("%s", (failure, afterReoperation, leftUntreated) => {
    expect(follow(reoperated, rules(failure))).toBe(afterReoperation);
    expect(follow(untreated, rules(failure))).toBe(leftUntreated);
  });

  test("removing oil alone is not a reoperation", () => {
    const rows = [
      primary({ tamponade: "silicone oil", ...seen(90) }),
      primary({ operation_date: 1120, technique: "oil removal", ...seen(200) }),
    ];
    expect(follow(rows, rules("reoperation"))).toBe("200+");
  });

  test("files with one row an eye say it on that row", () => {
    const row = primary({
      ...seen(300),
      reoperation_date: 1070,
      reoperation_technique: "vitrectomy",
    });
    expect(follow([row], rules("reoperation"))).toBe("70");
    const oilOnly = primary({
      ...seen(300),
      reoperation_date: 1070,
      reoperation_technique: "oil removal",
    });
    expect(follow([oilOnly], rules("reoperation"))).toBe("300+");
  });

  test("attached only under oil has failed where oil does not count as attached", () => {
    const row = primary({ tamponade: "silicone oil", ...seen(200, "attached under oil") });
    expect(follow([row], rules("not attached without oil"))).toBe("200");
    expect(follow([row], rules("detached at last visit"))).toBe("200+");
  });
});

describe("oil", () => {
  const oilIn = (over: Record<string, CellValue>) =>
    primary({ tamponade: "silicone oil", ...over });
  const removed = (day: number, over: Record<string, CellValue> = {}) =>
    primary({ operation_date: 1000 + day, technique: "oil removal", ...over });

  const stillIn = [oilIn(seen(200, "attached under oil"))];
  const cameOut = [oilIn(seen(110)), removed(120, seen(300))];
  const failedUnder = [oilIn({ ...seen(60), redetachment_date: 1060 })];
  const failedAfter = [oilIn(seen(110)), removed(120, { ...seen(300), redetachment_date: 1150 })];

  test.each<[OilTreatment, string, string, string, string]>([
    ["followed from removal", "0+?", "180+", "0", "30"],
    ["censored at insertion", "0+", "0+", "0+", "0+"],
    ["counted as attached", "200+", "300+", "60", "150"],
    ["counted as failed", "200", "300+", "60", "150"],
  ])("%s", (oil, still, out, under, after) => {
    const by = rules("redetachment", oil);
    expect(follow(stillIn, by)).toBe(still);
    expect(follow(cameOut, by)).toBe(out);
    expect(follow(failedUnder, by)).toBe(under);
    expect(follow(failedAfter, by)).toBe(after);
  });

  test("the day the oil came out may stand on the row of the primary repair", () => {
    const row = oilIn({ ...seen(300), oil_removed_date: 1100 });
    expect(follow([row], rules("redetachment", "followed from removal"))).toBe("200+");
  });

  test("never flat under oil has failed on day 0 under every treatment", () => {
    const row = oilIn({ ...seen(30, "detached"), never_attached: true });
    expect(follow([row], rules("redetachment", "censored at insertion"))).toBe("0");
    expect(follow([row], rules("redetachment", "followed from removal"))).toBe("0");
  });
});

describe("undecided", () => {
  const observed = [primary(seen(100, "under observation"))];

  test.each<[UndecidedTreatment, string]>([
    ["bounds", "100+?"],
    ["censored", "100+?"],
    ["failed", "100"],
    ["attached", "100+"],
  ])("%s", (undecided, expected) => {
    expect(follow(observed, rules("redetachment", "counted as attached", undecided))).toBe(
      expected,
    );
  });
});

describe("the window", () => {
  const within = (failure: FailureDefinition): OutcomeRules => ({
    ...rules(failure),
    window: { length: 91, text: "3 months" },
  });

  test("a later redetachment is not counted, and the eye was attached at the window", () => {
    const record = indexEyes(
      casesOf([primary({ ...seen(300), redetachment_date: 1200 })]),
      within("redetachment"),
    );
    expect(outcomes(record)).toBe("91+");
    expect(record.state).toEqual(["attached"]);
  });

  test("a failure on the last day of the window counts, and on the next day not", () => {
    const on = (day: number) => [primary({ ...seen(300), redetachment_date: 1000 + day })];
    expect(follow(on(91), within("redetachment"))).toBe("91");
    expect(follow(on(92), within("redetachment"))).toBe("91+");
  });

  test("a state read at the last visit has no window, and no time but that of the visit", () => {
    const record = indexEyes(
      casesOf([primary(seen(300, "detached"))]),
      within("detached at last visit"),
    );
    expect(outcomes(record)).toBe("300");
    expect(record.window).toBeUndefined();
  });

  test("deciding comes after cutting: failed, bounds and attached keep their order", () => {
    const rows = [primary(seen(300, "under observation"))];
    const by = (undecided: UndecidedTreatment): string =>
      follow(rows, { ...within("redetachment"), undecided });
    expect(["failed", "bounds", "attached"].map((each) => by(each as UndecidedTreatment))).toEqual([
      "91",
      "91+?",
      "91+",
    ]);
  });
});

describe("from rows to eyes", () => {
  test("two eyes of a patient are two eyes, a reoperation is not a third", () => {
    const record = indexEyes(
      casesOf([
        primary(seen(40)),
        primary({
          eye: "left",
          operation_date: 1010,
          last_seen_date: 1100,
          status_last_seen: "attached",
        }),
        primary({ operation_date: 1050, ...seen(200) }),
      ]),
      rules(),
    );
    expect(record.lines).toEqual([[2, 4], [3]]);
    expect(record.patient).toEqual(["P1", "P1"]);
    expect(record.flow).toMatchObject({ rowsRead: 3, rows: 3, primaryRows: 2, laterRows: 1 });
  });

  test("rows in any order give the same eyes", () => {
    const rows = [primary({ operation_date: 1050, ...seen(200) }), primary(seen(40))];
    expect(indexEyes(casesOf(rows), rules()).lines).toEqual([[3, 2]]);
    expect(follow(rows)).toBe("50");
  });

  test("every row is in the record or left out with its reason", () => {
    const record = indexEyes(
      casesOf([
        primary(seen(40)),
        primary({ patient: "P2", eye: null }),
        primary({ patient: "P3", operation_number: 2 }),
        primary({ patient: "P4", technique: "oil removal" }),
        primary({ patient: "P5", operation_date: 500 }),
        primary({ patient: "P6", technique: "scleral buckle" }),
        primary({ patient: "P7", technique: null }),
      ]),
      rules(),
      { from: 600, wanted: (row) => [true, true, true, true, true, false, null][row] ?? null },
    );
    expect(record.leftOut).toEqual([
      { reason: "which eye is not recorded", lines: [3] },
      { reason: "the primary repair is not in the file", lines: [4] },
      { reason: "the first operation in the file is not a primary repair", lines: [5] },
      { reason: "operated before the period", asked: true, lines: [6] },
      { reason: "the condition does not hold", asked: true, lines: [7] },
      { reason: "what the condition asks is not recorded", lines: [8] },
    ]);
    const { primaryRows, laterRows, rows } = record.flow;
    expect(primaryRows + laterRows + record.leftOut.length).toBe(rows);
  });

  test("a file without patients is one row an eye", () => {
    const rows = [1, 2].map((day) => ({ operation_date: 1000, ...seen(day) }));
    expect(follow(rows)).toBe("1+ 2+");
  });

  test("no rows, no eyes", () => {
    const record = indexEyes(casesOf([]), rules());
    expect(record.time).toHaveLength(0);
    expect(record.flow.rows).toBe(0);
  });

  test("causes stand with the failure they explain", () => {
    const record = indexEyes(
      casesOf([
        primary({ ...seen(40), redetachment_date: 1040, failure_cause: ["PVR", "new break"] }),
        primary({ patient: "P2", ...seen(90), failure_cause: ["PVR"] }),
      ]),
      rules(),
    );
    expect(record.causes).toEqual([["PVR", "new break"], []]);
    expect(columnNamed(record.table, "cause")?.values).toEqual([["PVR", "new break"], null]);
  });
});

describe("what is written and cannot be read is no success", () => {
  const withProblem = (field: string, row: Record<string, CellValue>) => {
    const reading = casesOf([{ [field]: null, ...primary(seen(300)), ...row }]);
    const problem = {
      code: "not-a-day",
      severity: "query" as const,
      place: { line: 2, field },
      message: "this is not a date.",
      found: "31/02/2025",
    };
    return outcomes(indexEyes({ ...reading, problems: [problem] }, rules()));
  };

  test.each(["redetachment_date", "reoperation_date", "never_attached"])("%s", (field) => {
    expect(withProblem(field, {})).toBe("0+?");
  });

  test("a problem elsewhere in the row casts no doubt", () => {
    expect(withProblem("age", {})).toBe("300+");
  });
});

describe("signs of a failure without a day leave the eye undecided", () => {
  test.each<[string, Record<string, CellValue>]>([
    ["a reoperation's technique", { reoperation_technique: "vitrectomy" }],
    ["a total of operations above one", { operations_total: 3 }],
    ["a cause of failure", { failure_cause: ["PVR"] }],
  ])("%s", (_, over) => {
    expect(follow([primary({ ...seen(300), ...over })])).toBe("0+?");
  });

  test("the removal of oil is no sign", () => {
    expect(follow([primary({ ...seen(300), reoperation_technique: "oil removal" })])).toBe("300+");
  });
});

describe("later operations", () => {
  const after = (technique: string | null, before: string | null) =>
    follow([
      primary({ last_seen_date: 1050, status_last_seen: before }),
      primary({ operation_date: 1050, technique, ...seen(300) }),
    ]);

  test.each<[string | null, string | null, string]>([
    ["vitrectomy", "attached", "50"],
    ["laser or cryo alone", "attached", "300+"],
    ["other", "attached", "300+"],
    ["other", "detached", "50"],
    [null, "detached", "50"],
    [null, null, "0+?"],
  ])("%s on an eye that was %s before", (technique, before, expected) => {
    expect(after(technique, before)).toBe(expected);
  });
});

describe("the last visit", () => {
  test("a state recorded earlier does not stand for a later visit", () => {
    const again = primary({ operation_date: 1100, technique: "other", last_seen_date: 1300 });
    expect(follow([primary({ ...seen(100) }), again])).toBe("0+?");
  });

  test("in a file without any state, an eye seen with nothing said of a detachment is attached", () => {
    const record = indexEyes(casesOf([primary({ last_seen_date: 1300 })]), rules());
    expect(outcomes(record)).toBe("300+");
    expect(record.statePresumed).toBe(true);
  });

  test("death soon after a visit ends follow-up; long after, follow-up ended at the visit", () => {
    expect(follow([primary({ ...seen(19), death_date: 1700 })])).toBe("19+");
    const detached = primary({ ...seen(60, "detached"), death_date: 1700 });
    expect(follow([detached], rules("detached at last visit"))).toBe("60");
    const observed = primary({ ...seen(60, "under observation"), death_date: 1070 });
    expect(follow([observed])).toBe("60+?");
  });
});

describe("oil by what was last heard of it", () => {
  const oil = { tamponade: "silicone oil" };
  const byOil = (treatment: OilTreatment) => rules("redetachment", treatment);

  test("in again after it came out", () => {
    const rows = [
      primary({ ...oil, ...seen(110) }),
      primary({ operation_date: 1120, technique: "oil removal", ...seen(150) }),
      primary({
        operation_date: 1150,
        technique: "other",
        ...oil,
        ...seen(300, "attached under oil"),
      }),
    ];
    expect(follow(rows, byOil("counted as failed"))).toBe("300");
  });

  test("the state says so, whatever tamponade is written", () => {
    const row = primary({ tamponade: "SF6", ...seen(300, "attached under oil") });
    expect(follow([row], byOil("counted as failed"))).toBe("300");
    expect(follow([row], byOil("followed from removal"))).toBe("0+?");
  });

  test("the clock from removal is not conditioned on failing: those under oil stand beside it", () => {
    const rows = [
      ...["P1", "P2"].map((patient) =>
        primary({ patient, ...oil, ...seen(60), redetachment_date: 1060 }),
      ),
      ...["P3", "P4", "P5"].map((patient) =>
        primary({ patient, ...oil, ...seen(90, "attached under oil") }),
      ),
    ];
    expect(follow(rows, byOil("followed from removal"))).toBe("0 0 0+? 0+? 0+?");
  });
});

describe("rows that a check stopped", () => {
  const reading = casesOf([primary(seen(300)), primary({ patient: "P2", ...seen(300) })]);
  const stoppedAs = (code: string) =>
    indexEyes(
      {
        ...reading,
        rowsRead: 3,
        leftOut: [{ line: 4, code, reason: "x", patient: "P1", eye: "right" }],
      },
      rules(),
    );

  test("leave the whole eye out", () => {
    const record = stoppedAs("event-before-operation");
    expect(record.lines).toEqual([[3]]);
    expect(record.leftOut).toEqual([
      { reason: "another row of this eye was stopped by a check", lines: [2] },
    ]);
  });

  test("but not where the row only says again what another says", () => {
    expect(stoppedAs("same-operation-twice").lines).toEqual([[2], [3]]);
  });
});

describe("rows that cannot be linked", () => {
  test("without a patient in a file that has patients", () => {
    const record = indexEyes(casesOf([primary(seen(9)), primary({ patient: null })]), rules());
    expect(record.leftOut).toEqual([{ reason: "the patient is not recorded", lines: [3] }]);
  });

  test("a later operation without its side leaves both eyes of the patient undecided", () => {
    const rows = [primary(seen(300)), primary({ operation_date: 1100, eye: null })];
    expect(follow(rows)).toBe("0+?");
  });

  test("without a column for the eye: one row a patient is one eye, several cannot be told", () => {
    const one = (patient: string) => ({ patient, operation_date: 1000, ...seen(9) });
    const record = indexEyes(casesOf([one("P1"), one("P2"), one("P2")]), rules());
    expect(record.lines).toEqual([[2]]);
    expect(record.leftOut).toEqual([
      {
        reason: "the patient has several rows and the file has no column for the eye",
        lines: [3, 4],
      },
    ]);
  });
});
