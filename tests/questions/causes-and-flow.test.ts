import { describe, expect, test } from "vitest";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";

const failing = (patient: string, causes: readonly string[] | null, technique = "vitrectomy") =>
  primary({
    patient,
    technique,
    failure_cause: causes,
    redetachment_date: 1050,
    last_seen_date: 1100,
    status_last_seen: "detached",
  });
const spared = (patient: string) =>
  primary({ patient, last_seen_date: 1400, status_last_seen: "attached" });

const reading = casesOf([
  failing("P1", ["PVR"]),
  failing("P2", ["PVR", "new break"], "scleral buckle"),
  failing("P3", null),
  failing("P4", ["buckle height"], "scleral buckle"),
  spared("P5"),
  primary({ patient: "P5", operation_date: 1200, technique: "oil removal" }),
  primary({ patient: "P6", eye: null }),
]);
const cases = casesValue(reading);
const cells = { cases, eyes: workedOut("index_eyes(cases)", { cases }) };

describe("failure_causes", () => {
  test("counts and shares of the failed eyes, what is not recorded last", () => {
    const { rows, sentence, cautions } = ask("failure_causes(eyes)", cells);
    expect(rows.map((row) => row.slice(0, 3))).toEqual([
      ["PVR", "2", "50.0% (15.0 – 85.0)"],
      ["buckle height", "1", "25.0% (4.6 – 69.9)"],
      ["new break", "1", "25.0% (4.6 – 69.9)"],
      ["not recorded", "1", "25.0% (4.6 – 69.9)"],
    ]);
    expect(sentence).toBe(
      "Of the 4 eyes that failed, the recorded cause was PVR in 2 (50.0%, 15.0 to 85.0%), buckle " +
        "height in 1 (25.0%, 4.6 to 69.9%) and new break in 1 (25.0%, 4.6 to 69.9%); no cause is known for 1 (95% Wilson " +
        "intervals).",
    );
    expect(cautions).toEqual(["cause-not-recorded", "causes-overlap"]);
  });

  test("split by technique, each count with its eyes", () => {
    const { answer, lines } = ask("failure_causes(eyes, by: technique)", cells);
    const [first] = answer.table.rows;
    expect(first?.map(({ text }) => text).slice(3)).toEqual(["1", "1"]);
    expect(lines(first?.[3]?.pick)).toEqual([[3]]);
  });

  test("no failure, no cause", () => {
    const none = casesValue(casesOf([spared("P1")]));
    const { sentence, answer } = ask("failure_causes(eyes)", {
      eyes: workedOut("index_eyes(cases)", { cases: none }),
    });
    expect(sentence).toBe("No failure is recorded among 1 eye.");
    expect(answer.table.rows).toEqual([]);
  });
});

describe("case_flow", () => {
  test("no row is lost between the boxes", () => {
    const { answer, figures, rows, sentence } = ask("case_flow(eyes)", cells);
    expect(answer).toMatchObject({ used: 7, leftOut: [] });
    expect(figures).toMatchObject({ rows_read: 7, rows_kept: 7, eyes: 5 });
    expect(rows).toEqual([
      ["rows read", "7", "", ""],
      ["operations kept", "7", "later operations on eyes followed", "1"],
      ["", "", "which eye is not recorded", "1"],
      ["eyes followed", "5", "", ""],
      ["failed", "4", "", ""],
      ["attached", "1", "", ""],
    ]);
    expect(sentence).toBe(
      "Of 7 rows read, 7 were kept and none stopped by a check. They hold the primary repairs of 5 " +
        "eyes and 1 later operation on them; 1 row could not be followed or lay outside the question.",
    );
  });

  test("rows that a check stopped are counted by reason, with their lines", () => {
    const stopped = casesValue({
      ...reading,
      rowsRead: 9,
      leftOut: [
        { line: 20, code: "x", reason: "twice" },
        { line: 21, code: "x", reason: "twice" },
      ],
    });
    const { answer, lines } = ask("case_flow(cases)", { cases: stopped });
    expect(answer.leftOut).toEqual([{ reason: "twice", count: 2 }]);
    expect(answer.used + 2).toBe(9);
    expect(lines(answer.table.rows[0]?.[3]?.pick)).toEqual([[20], [21]]);
  });

  test("rows that are kept with a query are counted, each once, with their lines", () => {
    const [first, second] = reading.lines;
    const problemAt = (line: number, severity: "query" | "note" | "stop") => ({
      ...{ code: "x", message: "x.", severity },
      place: { file: reading.file.name, line, field: "age" },
    });
    const queried = casesValue({
      ...reading,
      problems: [
        problemAt(first!, "query"),
        problemAt(first!, "query"),
        problemAt(second!, "query"),
        problemAt(reading.lines[2]!, "note"),
        problemAt(99, "query"),
      ],
    });
    const eyes = workedOut("index_eyes(cases)", { cases: queried });
    for (const [working, given] of [
      ["case_flow(cases)", { cases: queried }],
      ["case_flow(eyes)", { cases: queried, eyes }],
    ] as const) {
      const { answer, lines, rows, figures, sentence } = ask(working, given);
      const at = rows.findIndex(([label]) => label === "of these, with a query");
      expect(rows[at]?.[1]).toBe("2");
      expect(lines(answer.table.rows[at]?.[1]?.pick)).toEqual([[first], [second]]);
      expect(figures).toMatchObject({ rows_queried: 2 });
      expect(sentence).toContain("stopped by a check; about 2 of those kept there is a query.");
    }
  });
});
