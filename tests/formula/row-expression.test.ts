import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/formula/evaluate.ts";
import { parse } from "../../src/formula/parse.ts";
import { rowExpression } from "../../src/formula/row-expression.ts";
import type { Value } from "../../src/formula/value.ts";
import type { RowColumn, RowColumns, RowExpression, Word } from "../../src/formula/vocabulary.ts";
import { formatProblem } from "../../src/problem/format-problem.ts";
import { randomExpression } from "./random-expression.ts";
import { aText, cells, outcomeOf, show, vocabulary } from "./working.ts";

type Held = ReturnType<RowColumn["at"]>;
type Columns = Readonly<Record<string, readonly [RowColumn["kind"], ...Held[]]>>;

function columnsOf(columns: Columns): RowColumns {
  const made = new Map<string, RowColumn>();
  for (const [name, [kind, ...held]] of Object.entries(columns)) {
    made.set(name, { kind, label: name, at: (row) => held[row] ?? null });
  }
  return { names: () => made.keys(), column: (name) => made.get(name) };
}

function expressionOf(text: string): RowExpression {
  const { tree, problems } = parse(text);
  expect(problems).toEqual([]);
  return rowExpression(tree!, { vocabulary, cell: (name) => cells.get(name) }, evaluate);
}

const table: Columns = {
  age: ["number", 70, 50, null, 20],
  sector: ["text", "upper", "lower", "upper", null],
  seen: ["day", 20000, 20100, 20200, null],
  born: ["day", 0, 10957, null, 3],
  waited: ["duration", 3, 40, null, 90],
  closed: ["truth", true, false, null, true],
  breaks: ["codes", ["hole", "tear"], [], null, ["tear"]],
  name: ["text", "row", "row", "row", "row"],
};

/** Kind and the values of four rows, or the problems. */
function rows(text: string, columns = table): string {
  const bound = expressionOf(text).over(columnsOf(columns));
  if (!bound.ok) return bound.problems.map(formatProblem).join("\n");
  const held = [0, 1, 2, 3].map((row) => JSON.stringify(bound.column.at(row)));
  return `${bound.column.kind}: ${held.join(" ")}`;
}

describe("over the rows of a table", () => {
  it.each([
    ["age", "number: 70 50 null 20"],
    ["age + 1", "number: 71 51 null 21"],
    ["-age", "number: -70 -50 null -20"],
    ["age >= 50", "truth: true true null false"],
    ["age between 20 and 50", "truth: false true null true"],
    ["age is missing", "truth: false false true false"],
    ["age >= 50 and closed", "truth: true false null false"],
    ["age >= 50 or closed", "truth: true true null true"],
    ["not closed", "truth: false true null false"],
    ['sector = "upper"', "truth: true false true null"],
    ['sector is one of ["upper", "nasal"]', "truth: true false true null"],
    ["sector is one of wanted", "truth: false false false null"],
    ["waited > 30 days", "truth: false true null true"],
    ["waited > lasted", "truth: false false null false"],
    ["seen + 1 week", "day: 20007 20107 20207 null"],
    ["seen - born", "duration: 20000 9143 null null"],
    ["age / (age - 50)", "number: 3.5 null null -0.6666666666666666"],
    ["if age >= 50 then sector else missing", 'text: "upper" "lower" null null'],
    ['if closed then "yes" else "no"', 'text: "yes" "no" null "yes"'],
    ["breaks", 'codes: ["hole","tear"] [] null ["tear"]'],
    ['contains(breaks, "tear")', "truth: true false null true"],
    ['contains_any(breaks, ["tear", "dialysis"])', "truth: true false null true"],
    ['"tear" is one of breaks', "truth: true false null true"],
    ["length(breaks)", "number: 2 0 null 1"],
    ["length(sector)", "number: 5 5 5 null"],
    ["round(age / 30)", "number: 2 2 null 1"],
    ["min(age, 60)", "number: 60 50 null 20"],
    ["max(age, days_in(waited))", "number: 70 50 null 90"],
    ["sum([age, 1, x])", "number: 74 54 null 24"],
    ["first_known(age, x)", "number: 70 50 3 20"],
    ["year(seen)", "number: 2024 2025 2025 null"],
    ["sqrt(age - 50)", "number: 4.47213595499958 0 null null"],
    ["age_at(born, seen)", "number: 54 25 null null"],
    ["x * how_often.rate + age", "number: 70.75 50.75 null 20.75"],
    ["how_often.at(90 days) > age", "truth: true true null true"],
    ['joined(sector, "sector")', 'text: "upper sector" "lower sector" "upper sector" null'],
    ["missing", "text: null null null null"],
    ["if closed then missing else missing", "text: null null null null"],
    ['"all"', 'text: "all" "all" "all" "all"'],
  ])("%s is %s", (text, expected) => {
    expect(rows(text)).toBe(expected);
  });

  it("sees columns before cells of the same name, and names the columns it uses", () => {
    expect(rows("name")).toBe('text: "row" "row" "row" "row"');
    const bound = expressionOf("x + age > 3 and age < 9 or closed").over(columnsOf(table));
    expect(bound.ok && bound.names).toEqual(["age", "closed"]);
  });

  it("labels a bare column as the table does, anything else with its text, and keeps orders", () => {
    const grade: RowColumn = { kind: "text", label: "Grade", order: ["B", "A"], at: () => "A" };
    const columns: RowColumns = {
      names: () => ["grade"],
      column: (name) => (name === "grade" ? grade : undefined),
    };
    const bare = expressionOf("grade").over(columns);
    expect(bare.ok && bare.column).toBe(grade);
    const worked = expressionOf('lower( grade )="a"').over(columns);
    expect(worked.ok && worked.column.label).toBe('lower(grade) = "a"');
  });

  it("ties words that look at the whole row, keeps their order, and names what they read", () => {
    const looks: Word = {
      name: "decade",
      meaning: "the decade of the age",
      answers: "text",
      parameters: [],
      readsRow: true,
      call: () => ({ ok: false, problems: [] }),
      perRow: ({ columns }) => {
        const age = columns.column("age");
        const at = (row: number) => `${Math.floor(Number(age?.at(row)) / 10)}0s`;
        return { ok: true, operand: { kind: "text", order: ["20s", "50s", "70s"], at } };
      },
    };
    const words = new Map(vocabulary).set("decade", looks);
    const { tree } = parse("decade()");
    const scope = { vocabulary: words, cell: () => undefined };
    const bound = rowExpression(tree!, scope, evaluate).over(columnsOf(table));
    expect(bound.ok && [bound.column.at(0), bound.column.order, bound.names]).toEqual([
      "70s",
      ["20s", "50s", "70s"],
      ["age"],
    ]);
  });

  it("lets the row arguments of a call inside see the columns of their own table", () => {
    expect(rows("age > rates_of(cases, by: age).rate")).toBe("truth: true true null true");
  });
});

describe("what does not fit a table", () => {
  it.each([
    ["age + sector", "operator-kinds"],
    ["waited > 30", "operator-kinds"],
    ["age > 30 days", "operator-kinds"],
    ['breaks = "tear"', "operator-kinds"],
    ["sector < sector", "operator-kinds"],
    ["-sector", "operator-kinds"],
    ["not age", "operator-kinds"],
    ["age and closed", "operator-kinds"],
    ["if age then 1 else 2", "operator-kinds"],
    ['age is one of ["a"]', "operator-kinds"],
    ['breaks is one of ["tear"]', "operator-kinds"],
    ["age is one of 3", "list-expected"],
    ["age is one of sector", "list-expected"],
    ["if closed then age else sector", "branches-differ"],
    ["agee > 3", "unknown-name"],
    ["age > agee and sexx = 1", "unknown-name, unknown-name"],
    ["nothing(age)", "unknown-word"],
    ["round(sector)", "wrong-kind"],
    ["round(age, digit: 2)", "unknown-argument"],
    ["rates_of(age)", "not-by-row"],
    ["age.rate", "no-parts"],
    ["how_often", "not-a-column"],
    ["[1, 2]", "not-a-column"],
    ["[age, 2]", "not-a-column"],
    ["age > 1 / 0", "not-finite"],
  ])("%s is told before any row is read: %s", (text, codes) => {
    const bound = expressionOf(text).over(columnsOf(table));
    expect(bound.ok ? "" : bound.problems.map(({ code }) => code).join(", ")).toBe(codes);
  });
});

describe("row by row and on its own", () => {
  const kinds = {
    n: "number",
    k: "number",
    t: "truth",
    u: "truth",
    s: "text",
    d: "day",
    e: "day",
    l: "duration",
    c: "codes",
  } as const;
  const held = fc.record({
    n: fc.option(fc.oneof(fc.integer({ min: -9, max: 9 }), fc.constantFrom(0, 0.5, 1e200))),
    k: fc.option(fc.integer({ min: -3, max: 3 })),
    t: fc.option(fc.boolean()),
    u: fc.option(fc.boolean()),
    s: fc.option(fc.constantFrom("", "a", "b", "ab")),
    d: fc.option(fc.integer({ min: 0, max: 30_000 })),
    e: fc.option(fc.integer({ min: 0, max: 30_000 })),
    l: fc.option(fc.integer({ min: -400, max: 400 })),
    c: fc.option(fc.subarray(["a", "b", "c"])),
  });

  it("have the same outcome, but for what cannot be reckoned: missing in a row", () => {
    let compared = 0;
    let missing = 0;
    fc.assert(
      fc.property(randomExpression, held, (text, row) => {
        const columns: Columns = Object.fromEntries(
          Object.entries(kinds).map(([name, kind]) => [name, [kind, row[name as "n"] as Held]]),
        );
        const bound = expressionOf(text).over(columnsOf(columns));
        const values = new Map(
          Object.entries(kinds).map(([name, kind]) => [name, asCell(kind, row[name as "n"])]),
        );
        const alone = outcomeOf(text, values);
        if (!bound.ok) {
          // A constant part that cannot be reckoned is told before any row is read.
          expect(bound.problems.every(({ code }) => code.startsWith("not-finite"))).toBe(true);
          return;
        }
        const inRow = asCell(bound.column.kind, bound.column.at(0));
        if (alone.ok) expect(show(inRow)).toBe(show(alone.value));
        else {
          expect(alone.problems.every(({ code }) => code.startsWith("not-finite"))).toBe(true);
        }
        compared += alone.ok ? 1 : 0;
        missing += alone.ok && alone.value.kind === "missing" ? 1 : 0;
      }),
      { numRuns: 3000, seed: 42 },
    );
    // The comparison is not empty: most expressions have an outcome, and many of these a value.
    expect(compared).toBeGreaterThan(1800);
    expect(compared - missing).toBeGreaterThan(900);
  });

  function asCell(kind: RowColumn["kind"], value: unknown): Value {
    if (value === null || value === undefined) return { kind: "missing" };
    if (kind === "codes") return { kind: "list", items: (value as string[]).map(aText) };
    if (kind === "text") return aText(value as string);
    if (kind === "truth") return { kind: "truth", truth: value as boolean };
    if (kind === "day") return { kind: "day", day: value as number };
    if (kind === "number") return { kind: "number", number: value as number };
    return { kind: "duration", amount: value as number, unit: "day", days: value as number };
  }
});

describe("summed up over groups", () => {
  const groups = [[0, 1], [2], [3, 0, 2], []];

  function sums(text: string): string {
    const bound = expressionOf(text).overGroups?.(columnsOf(table), groups);
    if (bound === undefined) return "not offered";
    if (!bound.ok) return bound.problems.map(({ code }) => code).join(", ");
    const held = groups.map((_, group) => {
      const left = bound.missingIn(group);
      return JSON.stringify(bound.column.at(group)) + (left === 0 ? "" : ` (${left} missing)`);
    });
    return `${bound.column.kind}: ${held.join(", ")}`;
  }

  it.each([
    ["median(age)", "number: 60, null (1 missing), 45 (1 missing), null"],
    ["sum(age)", "number: 120, 0 (1 missing), 90 (1 missing), 0"],
    ["max(age) - min(age)", "number: 20, null (2 missing), 50 (2 missing), null"],
    ["length(age)", "number: 2, 1, 3, 0"],
    ["count_known(age)", "number: 2, 0, 2, 0"],
    ["count_missing(age)", "number: 0, 1, 1, 0"],
    ['share(sector = "upper")', "number: 0.5, 1, 1 (1 missing), null"],
    ["median(waited)", "duration: 22, null (1 missing), 47 (1 missing), null"],
    ["round(mean(age) / x, digits: 1)", "number: 20, null (1 missing), 15 (1 missing), null"],
    ["quantile(age, 25%)", "number: 55, null (1 missing), 32.5 (1 missing), null"],
    ["max(seen)", "day: 20100, 20200, 20200 (1 missing), null"],
    ["sum(age) > 100 and x = 3", "truth: true, false (1 missing), false (1 missing), false"],
    ["x", "number: 3, 3, 3, 3"],
    ["age", "column-not-summed-up"],
    ["age + median(age)", "column-not-summed-up"],
    ["round(age)", "column-not-summed-up"],
    ["sum(sector)", "wrong-kind"],
  ])("%s is %s", (text, expected) => {
    expect(sums(text)).toBe(expected);
  });
});
