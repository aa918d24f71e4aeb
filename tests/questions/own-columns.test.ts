import { readFileSync } from "node:fs";
import { csvFormatRows, csvParseRows } from "d3-dsv";
import { describe, expect, it } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { formatProblem } from "../../src/problem/format-problem.ts";
import type { Answered } from "../../src/questions/answer.ts";
import { sentenceText } from "../../src/questions/answer.ts";
import { vocabulary } from "../../src/questions/vocabulary.ts";
import { NotebookSession } from "../../src/recalculation/notebook-session.ts";

/*
 * Any question goes by any column: one of the department's own that no dictionary knows, and one
 * that is computed in the notebook.
 */

/** Questions that go by something, but not by any column of the cases: those of departments. */
const byDepartments = /^pooled_/;

/** What a question needs besides the eyes and what it goes by. */
const needed: Readonly<Record<string, string>> = {
  standardised_rate: ", age, sex",
  // names of people are hidden unless asked for
  observed_expected: ', names: "shown"',
  funnel: ', names: "shown"',
};

const questions = [...vocabulary.values()]
  .filter((word) => "example" in word && word.parameters.some(({ name }) => name === "by"))
  .map(({ name, parameters }) => ({ name, over: parameters[0]?.name ?? "" }))
  .filter(({ name, over }) => !byDepartments.test(name) && (over === "eyes" || over === "cases"));

/** The demo with a column more, which says nothing. */
function withTheatres(csv: string): string {
  const [headings = [], ...rows] = csvParseRows(csv);
  return csvFormatRows([
    [...headings, "Theatre list"],
    ...rows.map((row, i) => [...row, `list ${1 + (i % 3)}`]),
  ]);
}

const demo = readFileSync("notebooks/demo.md", "utf8");
const front = /^---\n([\s\S]*?)\n---\n/.exec(demo)?.[1] ?? "";

async function answersBy(column: string): Promise<ReadonlyMap<string, Answered | string>> {
  const cells = questions.map(
    ({ name, over }) =>
      `    by_${name} = ${name}(${over === "cases" ? "cases" : "eyes"}${needed[name] ?? ""}, by: ${column})`,
  );
  const text = [
    ...[
      "---",
      front,
      "computed:",
      '  age_group: if age > 60 then "older" else "younger"',
      "---",
      "",
    ],
    ...["    eyes = index_eyes(cases, within: 6 months)", "", cells.join("\n\n"), ""],
  ].join("\n");
  const session = new NotebookSession<never>({
    vocabulary,
    version: "test",
    readCases: (file, matching) => readCases(file, { matching, today: 20_543 }),
    withSetting: (working) => working,
  });
  expect(session.openNotebook("own.md", text).map(formatProblem)).toEqual([]);
  const csv = withTheatres(readFileSync("data-demo/repairs.csv", "utf8"));
  session.openCases("own.csv", new TextEncoder().encode(csv));
  await session.sheet.settled();
  const answers = questions.map(({ name }): readonly [string, Answered | string] => {
    const state = session.sheet.state(`by_${name}`);
    if (state.status !== "current" || state.value.kind !== "thing") {
      return [name, JSON.stringify(state)];
    }
    return [name, state.value.content as Answered];
  });
  session.dispose();
  return new Map(answers);
}

describe.each([
  ["theatre_list", ["list 1", "list 2", "list 3"]],
  ["age_group", ["older", "younger"]],
])("by %s", async (column, groups) => {
  const answers = await answersBy(column);

  it.each(questions)("$name answers, group by group", ({ name }) => {
    const answered = answers.get(name);
    if (answered === undefined || typeof answered === "string") {
      throw new Error(`${name}: ${answered}`);
    }
    const { answer } = answered;
    const shown = JSON.stringify([answer.table, answer.chart, sentenceText(answer.sentence)]);
    expect(groups.filter((group) => !shown.includes(group))).toEqual([]);
  });
});

it("there are such questions", () => {
  expect(questions.length).toBeGreaterThan(14);
});
