import { beforeEach, describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { columnNamed } from "../../src/cases/table.ts";
import { vocabulary } from "../../src/questions/vocabulary.ts";
import { NotebookSession } from "../../src/recalculation/notebook-session.ts";

/** Three invented operations. */
const file = `case,patient,eye,operation_date,last_seen_date,technique,age
1,P1,right,2025-01-06,2025-03-07,scleral buckle,34
2,P2,left,2025-02-03,,vitrectomy,61
3,P3,left,2025-03-10,2025-03-20,vitrectomy,70
`;
const notebook = `---
holdfast: 1
title: Waits
computed:
  seen_after: last_seen_date - operation_date
---

    by_old = count_by(cases, by: old)
`;

let session: NotebookSession<never>;

beforeEach(() => {
  session = new NotebookSession<never>({
    vocabulary,
    version: "0.1.0",
    readCases: (cases, matching) => readCases(cases, { matching, today: 20_543 }),
    withSetting: (working) => working,
  });
  session.openNotebook("waits.md", notebook);
  session.openCases("ops.csv", new TextEncoder().encode(file));
});

const values = (name: string) => {
  const { cases } = session.caseReading!;
  return columnNamed(cases, name)?.values;
};
const codes = (problems: readonly { readonly code: string }[]) => problems.map(({ code }) => code);

describe("columns worked out in every row", () => {
  test("stand among the cases, a missing operand missing", () => {
    expect(values("seen_after")).toEqual([60, null, 10]);
    expect(columnNamed(session.caseReading!.cases, "seen_after")).toMatchObject({
      ...{ kind: "number", unit: "days", label: "seen after" },
    });
  });

  test("are added, used by the sheet, changed and undone; the notebook keeps them", async () => {
    await session.sheet.settled();
    expect(session.sheet.state("by_old").status).toBe("at fault");
    expect(session.setComputed("old", "age >= 60")).toEqual([]);
    await session.sheet.settled();
    expect(session.sheet.state("by_old").status).toBe("current");
    expect(values("old")).toEqual([false, true, true]);
    expect(session.notebookText()).toContain(
      "computed:\n  seen_after: last_seen_date - operation_date\n  old: age >= 60\n---\n",
    );
    expect(session.setComputed("old", "age >= 65")).toEqual([]);
    expect(values("old")).toEqual([false, false, true]);
    session.undo();
    expect(values("old")).toEqual([false, true, true]);
    expect(session.setComputed("old", undefined)).toEqual([]);
    expect(values("old")).toBeUndefined();
    expect(session.undoName).toBe("compute old");
  });

  test("see those before them", () => {
    expect(session.setComputed("late", "seen_after > 30 days")).toEqual([]);
    expect(values("late")).toEqual([true, null, false]);
  });

  test.each([
    ["old", "age >=", ["value-expected"]],
    ["old", "agee >= 60", ["unknown-name"]],
    ["old", "rows) ", ["unopened-bracket"]],
    ["old", "by_old", ["unknown-name"]],
    ["age", "1", ["computed-name-taken"]],
    ["two words", "1", ["computed-not-a-name"]],
  ])("%s: %s is refused, and changes nothing", (name, working, expected) => {
    const before = session.notebookText();
    expect(codes(session.setComputed(name, working))).toEqual(expected);
    expect(session.notebookText()).toBe(before);
  });

  test("one that fits no longer is a query, and the others stand", () => {
    const other = file.replaceAll("last_seen_date", "remark");
    session.setComputed("old", "age >= 60");
    session.openCases("other.csv", new TextEncoder().encode(other));
    expect(values("seen_after")).toBeUndefined();
    expect(values("old")).toEqual([false, true, true]);
    const { problems } = session.caseReading!;
    expect(problems.filter(({ place }) => place.field === "seen_after")).toMatchObject([
      { severity: "query", found: "last_seen_date - operation_date" },
    ]);
  });

  test("at fault is told as such in the cells that use it", async () => {
    session.setComputed("old", "seen_after > 30 days");
    await session.sheet.settled();
    expect(session.sheet.state("by_old").status).toBe("current");
    session.openCases(
      "other.csv",
      new TextEncoder().encode(file.replaceAll("last_seen", "remark")),
    );
    await session.sheet.settled();
    expect(session.sheet.state("by_old")).toMatchObject({
      status: "at fault",
      problems: [
        {
          code: "computed-at-fault",
          message:
            "the computed column `old` is at fault: the computed column `seen_after` is at fault: no cell or column is called `last_seen_date`.",
          remedy: "mend its working under “Computed columns” on the leaf of cases",
        },
      ],
    });
  });

  test("that are no texts are refused with their place", () => {
    const problems = session.openNotebook(
      "bad.md",
      notebook.replace("last_seen_date - operation_date", "[1, 2]"),
    );
    expect(problems).toMatchObject([{ code: "wrong-kind", severity: "stop", place: { line: 5 } }]);
  });
});
