import { describe, expect, test } from "vitest";
import type { CellValue } from "../../../src/cases/table.ts";
import { ask } from "../ask.ts";
import { casesOfColumns, faultsOf, published, reference } from "./tables-of.ts";

/**
 * Admissions to graduate school at Berkeley in 1973, one row a candidate: Bickel, Hammel and
 * O'Connell, Science 1975;187:398, as `UCBAdmissions` in R; counts and shares by R (table-verbs.R).
 */
function candidates() {
  const content = published("ucbadmissions");
  if (content.kind !== "thing") throw new Error("no cases");
  const { cases } = content.content as { cases: { columns: { values: readonly CellValue[] }[] } };
  const rows = (cases.columns[0]?.values ?? []).flatMap((_, row) => {
    const cells = cases.columns.map((column) => column.values[row] ?? null);
    return Array.from({ length: Number(cells[4]) }, () => cells);
  });
  const column = (position: number) => rows.map((cells) => cells[position] ?? null);
  return casesOfColumns({
    admit: { kind: "code", values: column(1) },
    sex: { kind: "code", values: column(2) },
    dept: { kind: "code", values: column(3) },
  });
}

describe("count_by against the published cross-table", () => {
  const cells = { cases: candidates() };

  test("counts, row shares and column shares of sex against admission", () => {
    const { answer, sentence } = ask("count_by(cases, by: sex, against: admit)", cells);
    const { counts, row, column, total } = reference.ucb;
    const body = answer.table.rows.slice(0, 2).map((cellsOf) => cellsOf.map(({ value }) => value));
    body.forEach((values, i) => {
      expect([values[1], values[4]]).toEqual(counts[i]);
      expect(values[2]).toBeCloseTo(row[i][0], 12);
      expect(values[5]).toBeCloseTo(row[i][1], 12);
      expect(values[3]).toBeCloseTo(column[i][0], 12);
      expect(values[6]).toBeCloseTo(column[i][1], 12);
    });
    expect(answer.used).toBe(total);
    expect(sentence).toBe(
      "Of 4,526 cases by sex and admit; the commonest in each: male, Rejected in 1,493 of 2,691 (55.5%); " +
        "female, Rejected in 1,278 of 1,835 (69.6%).",
    );
  });

  test("by department", () => {
    const { answer } = ask('count_by(cases, dept, admit, shares: "of row")', cells);
    answer.table.rows.slice(0, 6).forEach((row, i) => {
      expect([row[1]?.value, row[3]?.value]).toEqual(reference.ucb.departments[i]);
      expect(row[2]?.value).toBeCloseTo(reference.ucb.department_rate[i], 12);
    });
  });

  test("words tell the shares that were asked for: of the column", () => {
    const { sentence } = ask('count_by(cases, sex, admit, shares: "of column")', cells);
    // 1,198 men of 1,755 admitted, 1,493 of 2,771 rejected, by adding up the published table.
    expect(sentence).toBe(
      "Of 4,526 cases by admit and sex; the commonest in each: Rejected, male in 1,493 of 2,771 (53.9%); " +
        "Admitted, male in 1,198 of 1,755 (68.3%).",
    );
  });

  test("the same counts by adding up the published table", () => {
    const table = { cases: published("ucbadmissions") };
    const { answer } = ask("summarise(cases, n: sum(freq), by: sex)", table);
    expect(answer.figures).toMatchObject({ n: 4526 });
    expect(answer.table.rows.map((row) => row[2]?.value)).toEqual([1835, 2691, 4526]);
  });
});

describe("count_by", () => {
  const cases = casesOfColumns({
    technique: {
      kind: "code",
      order: ["buckle", "vitrectomy"],
      values: ["vitrectomy", "buckle", null, "vitrectomy"],
    },
    failed: { kind: "truth", values: [true, false, false, null] },
    day: { kind: "day", values: [0, 0, 31, null] },
  });

  test("what is not recorded is a group, counted in every share", () => {
    const { rows, sentence, figures } = ask("count_by(cases, by: technique)", { cases });
    expect(rows).toEqual([
      ["buckle", "1", "25.0%"],
      ["vitrectomy", "2", "50.0%"],
      ["not recorded", "1", "25.0%"],
      ["all", "4", "100.0%"],
    ]);
    expect(sentence).toBe(
      "Of 4 cases by technique: buckle 1 (25.0%) and vitrectomy 2 (50.0%); not recorded: technique in 1.",
    );
    expect(figures).toMatchObject({ rows: 4, not_recorded: 1 });
  });

  test("left out on request, with its lines", () => {
    const { rows, answer, lines } = ask(
      'count_by(cases, by: technique, against: failed, shares: "none", with_missing: false)',
      { cases },
    );
    expect(rows).toEqual([
      ["buckle", "0", "1", "1"],
      ["vitrectomy", "1", "0", "1"],
      ["all", "1", "1", "2"],
    ]);
    expect(answer.leftOut.map(({ reason, pick }) => [reason, lines(pick)])).toEqual([
      ["technique not recorded", [[4]]],
      ["failed not recorded", [[5]]],
    ]);
  });

  test("every cell and every bar opens its rows", () => {
    const { answer, lines } = ask("count_by(cases, by: technique, against: failed)", { cases });
    const vitrectomy = answer.table.rows[1];
    expect(lines(vitrectomy?.[1]?.pick)).toEqual([[2]]);
    expect(lines(vitrectomy?.at(-2)?.pick)).toEqual([[2], [5]]);
    expect(vitrectomy?.[4]?.pick).toBeUndefined();
    if (answer.chart?.draw !== "table") throw new Error("no chart");
    const picked = answer.chart.drawing.marks.map(({ pick, rows }) => [rows, lines(pick).length]);
    for (const [rows, opened] of picked) expect(opened).toBe(rows);
    expect(picked.reduce((sum, [rows]) => sum + (rows ?? 0), 0)).toBe(4);
  });

  test("days as days, several codes together, yes before no", () => {
    const { rows } = ask('count_by(cases, by: day, shares: "none")', { cases });
    expect(rows.map(([label]) => label)).toEqual([
      "1970-01-01",
      "1970-02-01",
      "not recorded",
      "all",
    ]);
    const { rows: truths } = ask("count_by(cases, by: failed)", { cases });
    expect(truths.map(([label]) => label)).toEqual(["yes", "no", "not recorded", "all"]);
    const breaks = casesOfColumns({
      b: { kind: "codes", values: [["z", "a"], ["a", "z"], [], null] },
    });
    expect(ask("count_by(cases, by: b)", { cases: breaks }).rows).toEqual([
      ["a and z", "2", "50.0%"],
      ["none", "1", "25.0%"],
      ["not recorded", "1", "25.0%"],
      ["all", "4", "100.0%"],
    ]);
  });

  test("none, one and all", () => {
    const none = ask('count_by(keep(cases, technique = "oil"), by: technique)', { cases });
    expect(none.sentence).toBe("There are no cases to count.");
    expect(none.answer.chart).toBeUndefined();
    expect(
      ask('count_by(keep(cases, technique = "buckle"), by: technique)', { cases }).sentence,
    ).toBe("The only case has technique buckle.");
    expect(
      ask('count_by(keep(cases, technique = "vitrectomy"), by: technique)', { cases }).sentence,
    ).toBe("All 2 cases have technique vitrectomy.");
    expect(
      ask("count_by(keep(cases, technique is missing), by: technique)", { cases }).sentence,
    ).toBe("Technique is not recorded for the only case.");
  });

  test("a column of a different value in each row is no split", () => {
    const many = casesOfColumns({
      id: { kind: "number", values: Array.from({ length: 201 }, (_, i) => i) },
    });
    expect(faultsOf("count_by(cases, by: id)", { cases: many })).toEqual([
      "id takes 201 different values, too many to set side by side.\n" +
        "  found     id\n" +
        "  expected  at most 200 groups\n" +
        "  remedy    gather the values first, such as band(id, [40, 60]) or group_values(id, …)",
    ]);
  });
});
