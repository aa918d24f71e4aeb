import { describe, expect, test } from "vitest";
import { ask } from "../ask.ts";
import { casesOfColumns, faultsOf, published, reference } from "./tables-of.ts";

/** 189 births: Hosmer and Lemeshow 1989, as `birthwt` in R's MASS; numbers by R (table-verbs.R). */
describe("summarise against R", () => {
  const cells = { cases: published("birthwt") };
  const working =
    "summarise(cases, mean(age), median(bwt), lower_quartile(bwt), upper_quartile(bwt), " +
    "standard_deviation(lwt), share(low = 1), min(bwt), max(bwt), count_different(age), " +
    "count_where(low = 1), by: smoker)";

  test("means, medians, quartiles, deviations and shares of all and by smoking", () => {
    const { answer } = ask(working, cells);
    const { all, smoke } = reference.births;
    [smoke["0"], smoke["1"], all].forEach((made, i) => {
      const [, rows, ...values] = answer.table.rows[i]?.map(({ value }) => value) ?? [];
      expect(rows).toBe(made.rows);
      const expected = [
        ...[made.mean_age, made.median_weight, made.lower, made.upper, made.sd_lwt, made.low],
        ...[made.least, made.greatest, made.ages, made.low * made.rows],
      ];
      expect(values).toHaveLength(expected.length);
      values.forEach((value, j) => {
        expect(value).toBeCloseTo(expected[j], 10);
      });
    });
  });

  test("age bands against smoking, as R cuts them", () => {
    const { answer } = ask('count_by(cases, band(age, [20, 30]), smoker, shares: "none")', cells);
    expect(answer.table.rows.slice(0, 3).map((row) => [row[1]?.value, row[2]?.value])).toEqual(
      reference.births.bands,
    );
  });
});

describe("summarise", () => {
  const cases = casesOfColumns({
    age: { kind: "number", values: [30, null, 50, 71, null] },
    wait: { kind: "number", unit: "days", values: [1, 2, null, 5, 9] },
    macula: { kind: "code", values: ["on", "off", "off", null, "off"] },
  });

  test("missing values are counted beside each summary and lead to their rows", () => {
    const { answer, rows, lines } = ask(
      "summarise(cases, median(age), long: share(wait > 4 days), by: macula)",
      { cases },
    );
    expect(answer.table.columns.map(({ label }) => label)).toEqual([
      ...["macula", "cases", "median age", "median age: missing", "long", "long: missing"],
    ]);
    expect(rows).toEqual([
      ["off", "3", "50", "2", "50.0%", "1"],
      ["on", "1", "30", "0", "0.0%", "0"],
      ["not recorded", "1", "71", "0", "100.0%", "0"],
      ["all cases", "5", "50", "2", "50.0%", "1"],
    ]);
    expect(lines(answer.table.rows[0]?.[3]?.pick)).toEqual([[3], [6]]);
    expect(lines(answer.table.rows[3]?.[1]?.pick)).toEqual([[2], [3], [4], [5], [6]]);
  });

  test("sentences: over all, from the least to the greatest group, and of nothing", () => {
    expect(ask("summarise(cases, median(age), mean(wait))", { cases }).sentence).toBe(
      "Among 5 cases: median age 50; mean wait 4 days; values missing: 2 for median age and 1 for mean wait.",
    );
    expect(ask("summarise(cases, median(age), by: macula)", { cases }).sentence).toBe(
      "Among 5 cases by macula: median age from 30 (on, 1) to 50 (off, 3); values missing: 2 for median age.",
    );
    expect(ask("summarise(keep(cases, age > 99), median(age))", { cases }).sentence).toBe(
      "There are no cases to sum up.",
    );
    expect(ask("summarise(keep(cases, age is missing), median(age))", { cases }).sentence).toBe(
      "Among 2 cases: median age is not recorded; values missing: 2 for median age.",
    );
  });

  test("a named summary can be read by its name", () => {
    const { figures } = ask("summarise(cases, oldest: max(age), median(wait))", { cases });
    expect(figures).toMatchObject({ oldest: 71, rows: 5 });
  });

  test("a share of few rows is cautioned, an average is not", () => {
    expect(ask("summarise(cases, share(age > 40))", { cases }).cautions).toEqual(["small-numbers"]);
    expect(ask("summarise(cases, median(age))", { cases }).cautions).toEqual([]);
    const surgeons = casesOfColumns({
      surgeon: { kind: "text", values: ["S1", "S2"] },
      age: { kind: "number", values: [1, 2] },
    });
    expect(ask("summarise(cases, median(age), by: surgeon)", { cases: surgeons }).cautions).toEqual(
      ["comparing-people"],
    );
  });

  test("a column that is not summed up is refused", () => {
    expect(faultsOf("summarise(cases, age)", { cases })[0]).toContain(
      "`age` has a value for every row",
    );
  });
});
