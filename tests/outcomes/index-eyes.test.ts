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
    ["followed from removal", "0+?", "180+", "60", "30"],
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

  test("a state read at the last visit is charged to the window's end", () => {
    expect(follow([primary(seen(300, "detached"))], within("detached at last visit"))).toBe("91");
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
      { reason: "operated before the period", lines: [6] },
      { reason: "the condition does not hold", lines: [7] },
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
