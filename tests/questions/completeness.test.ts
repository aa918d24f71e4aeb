import { describe, expect, test } from "vitest";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue } from "./ask.ts";

const rows = [
  primary({ surgeon: "S1", tamponade: "SF6", gas_percent: null, macula: "on" }),
  primary({ surgeon: "S1", tamponade: "SF6", gas_percent: 20, macula: null }),
  primary({ surgeon: "S2", tamponade: "air", gas_percent: null, macula: null }),
  primary({ surgeon: null, tamponade: "air", gas_percent: null, macula: "off" }),
  primary({ surgeon: "S2", technique: "oil removal", tamponade: "air", operation_date: 1040 }),
];
const cells = { cases: casesValue(casesOf(rows)) };

describe("completeness", () => {
  const { answer, rows: table, sentence, lines, figures } = ask("completeness(cases)", cells);

  test("by field, of the rows that ought to have it", () => {
    const fields = table.filter(([by]) => by === "field").map((row) => row.slice(1, 5));
    expect(fields).toEqual([
      ["gas percent", "2", "1", "50.0%"],
      ["macula", "4", "2", "50.0%"],
      ["surgeon", "5", "1", "20.0%"],
      ["nothing missing: patient, eye, operation date, technique and tamponade", "25", "0", "0.0%"],
    ]);
    expect(figures).toMatchObject({ values: 36, missing: 4 });
  });

  test("by surgeon and by month, each adding up to the whole", () => {
    for (const by of ["surgeon", "month of operation"]) {
      const section = answer.table.rows.filter(([first]) => first?.text === by);
      const sum = (column: number) =>
        section.reduce((total, row) => total + Number(row[column]?.value), 0);
      expect([sum(2), sum(3)]).toEqual([36, 4]);
    }
    expect(table.filter(([by]) => by === "surgeon").map((row) => row.slice(1, 5))).toEqual([
      ["S1", "16", "2", "12.5%"],
      ["S2", "13", "1", "7.7%"],
      ["not recorded", "7", "1", "14.3%"],
    ]);
    expect(table.filter(([by]) => by === "month of operation").map(([, month]) => month)).toEqual([
      "1972-09",
      "1972-11",
    ]);
  });

  test("the sentence names the worst, and every number opens its rows", () => {
    expect(sentence).toBe(
      "Of 5 cases and 8 fields, 4 of 36 values (11.1%) are missing. Most often: gas percent in " +
        "1 of 2 (50.0%), macula in 2 of 4 (50.0%) and surgeon in 1 of 5 (20.0%). Between " +
        "surgeons the share missing runs from 7.7% to 12.5%. By month of operation, most is missing for " +
        "1972-09: 4 of 30 values (13.3%).",
    );
    const macula = answer.table.rows.find((row) => row[1]?.text === "macula");
    expect(lines(macula?.[3]?.pick)).toEqual([[3], [4]]);
    const first = answer.table.rows.find((row) => row[1]?.text === "S1");
    expect(lines(first?.[3]?.pick)).toEqual([[2], [3]]);
    if (answer.chart?.draw !== "table") throw new Error("no chart");
    expect(answer.chart.drawing.marks.map(({ up, pick }) => [up, lines(pick).length])).toEqual([
      [0.5, 1],
      [0.5, 2],
      [0.2, 1],
    ]);
  });

  test("nothing missing, and nothing at all", () => {
    const full = casesValue(casesOf([primary(), primary({ patient: "P2" })]));
    const whole = ask("completeness(cases)", { cases: full });
    expect(whole.sentence).toBe(
      "Of 2 cases and 4 fields, nothing is missing that ought to be there.",
    );
    expect(whole.answer.chart).toBeUndefined();
    const none = ask('completeness(keep(cases, patient = "P9"))', { cases: full });
    expect(none.sentence).toBe("There are no rows to look at.");
  });

  test("sets people side by side only where there are several", () => {
    expect(ask("completeness(cases)", cells).cautions).toContain("comparing-people");
    const one = ask('completeness(keep(cases, surgeon = "S1"))', cells);
    expect(one.cautions).not.toContain("comparing-people");
  });
});
