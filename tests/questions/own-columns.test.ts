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

function sessionOn(notebook: string, csv: string): NotebookSession<never> {
  const session = new NotebookSession<never>({
    vocabulary,
    version: "test",
    readCases: (file, matching) => readCases(file, { matching, today: 20_543 }),
    withSetting: (working) => working,
  });
  expect(session.openNotebook("own.md", notebook).map(formatProblem)).toEqual([]);
  session.openCases("own.csv", new TextEncoder().encode(csv));
  return session;
}

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
  const csv = withTheatres(readFileSync("data-demo/repairs.csv", "utf8"));
  const session = sessionOn(text, csv);
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

describe("by free text", () => {
  const remark = "Seen on Tuesday by the registrar, some fluid left below";

  it.each([
    ["failure_rate(eyes, by: remark)", "remark is free text"],
    ["failure_rate(eyes, by: upper(remark))", "remark is free text"],
    ["count_by(cases, by: technique, against: remark)", "remark is free text"],
    ["risk_model(eyes, age, remark)", "remark is free text"],
    ["hazard_model(eyes, note: trim(remark))", "remark is free text"],
  ])("%s is refused, and shows none of it", async (working, said) => {
    const told = await toldOf(working, remark);
    expect(told).toContain(said);
    expect(told).not.toContain("registrar");
  });

  it("groups that a condition makes from it are as good as any", async () => {
    // "well" is also what stands in most rows: here it is a label of the working
    const working = 'failure_rate(eyes, by: if contains(remark, "fluid") then "fluid" else "well")';
    const told = await toldOf(working, remark);
    expect(told).toContain('"fluid"');
    expect(told).not.toContain("registrar");
  });

  it("a column of short texts goes by its texts", async () => {
    expect(await toldOf("failure_rate(eyes, by: place)", remark)).toContain("west wing");
    expect(await toldOf("failure_rate(eyes, by: remark)", "well")).toContain('"well"');
  });
});

/** All that the sheet says of a cell, with a remark in one row and short texts in the others. */
async function toldOf(working: string, remark: string): Promise<string> {
  const [headings = [], ...rows] = csvParseRows(readFileSync("data-demo/repairs.csv", "utf8"));
  const csv = csvFormatRows([
    [...headings, "Remark", "Place"],
    ...rows.slice(0, 60).map((row, i) => {
      return [...row, i === 1 ? remark : "well", ["west wing", "east wing"][i % 2]!];
    }),
  ]);
  const session = sessionOn(
    `---
holdfast: 1
columns:
  Remark: { name: remark, kind: text }
---

    eyes = index_eyes(cases, within: 6 months)
    told = ${working}
`,
    csv,
  );
  await session.sheet.settled();
  const told = JSON.stringify(session.sheet.state("told"));
  session.dispose();
  return told;
}

it("there are such questions", () => {
  expect(questions.length).toBeGreaterThan(14);
});
