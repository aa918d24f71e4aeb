import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { check } from "../../../src/formula/check.ts";
import { evaluate } from "../../../src/formula/evaluate.ts";
import { meaningFaults, readingFaults } from "../../../src/formula/fault.ts";
import { parse } from "../../../src/formula/parse.ts";
import type { Outcome, RowColumn, RowColumns, Word } from "../../../src/formula/vocabulary.ts";
import { formatProblem } from "../../../src/problem/format-problem.ts";
import type { Problem } from "../../../src/problem/problem.ts";
import { aNumber, cells, vocabulary } from "../../formula/working.ts";

const folder = new URL("./", import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith(".working"));

/** Beside each broken working stands everything that is said of it, underlined. */
describe("each broken working is met with the whole of its message", () => {
  it.each(files)("%s", (file) => {
    const working = readFileSync(new URL(file, folder), "utf8").replace(/\n$/, "");
    const message = problemsOf(working).map((problem) => inFull(problem, working));
    const expected = readFileSync(new URL(file.replace(/working$/, "message"), folder), "utf8");
    expect(`${message.join("\n\n")}\n`).toBe(expected);
  });

  it("has a working for every kind of fault", () => {
    const shown = new Set(files.map((file) => file.replace(/(\.\d+)?\.working$/, "")));
    expect([...shown].sort()).toEqual([...readingFaults, ...meaningFaults].sort());
  });

  it.each(files)("%s shows the fault that it is named after", (file) => {
    const working = readFileSync(new URL(file, folder), "utf8").replace(/\n$/, "");
    expect(problemsOf(working)[0]?.code).toBe(file.replace(/(\.\d+)?\.working$/, ""));
  });
});

const columns: ReadonlyMap<string, RowColumn> = new Map<string, RowColumn>([
  ["age", { kind: "number", label: "age", at: () => 70 }],
  ["sector", { kind: "text", label: "sector", at: () => "upper" }],
  ["waited", { kind: "duration", label: "waited", at: () => 9 }],
  ["breaks", { kind: "codes", label: "breaks", at: () => ["round hole"] }],
]);

const table: RowColumns = { names: () => columns.keys(), column: (name) => columns.get(name) };

/** Words that tie what they are given to the columns above, by row and by group. */
const rowWords: readonly Word[] = ["over_rows", "over_groups"].map((name) => ({
  name,
  meaning: "ties an expression to a table",
  answers: "number",
  parameters: [{ name: "of", meaning: "the expression", takes: "row", kinds: [], required: true }],
  call({ rows }): Outcome {
    const given = rows.get("of");
    const bound = name === "over_rows" ? given?.over(table) : given?.overGroups?.(table, [[0]]);
    if (bound?.ok === false) return bound;
    return { ok: true, value: aNumber(1) };
  },
}));

function problemsOf(working: string): readonly Problem[] {
  const words = new Map([...vocabulary, ...rowWords.map((word) => [word.name, word] as const)]);
  const { tree, problems } = parse(working);
  if (tree === null || problems.length > 0) return problems;
  const checked = check(tree, { vocabulary: words, cells: new Set(cells.keys()) });
  if (checked.length > 0) return checked;
  const outcome = evaluate(tree, { vocabulary: words, cell: (name) => cells.get(name) });
  return outcome.ok ? [] : outcome.problems;
}

/** The lines that the fault touches, underlined, and the message; long lines are cut. */
function inFull(problem: Problem, working: string): string {
  const { start, end } = problem.place.span ?? { start: 0, end: 0 };
  const lineStart = working.lastIndexOf("\n", start - 1) + 1;
  const line = working.slice(lineStart).split("\n")[0]!.slice(0, 90);
  const length = Math.max(1, Math.min(end, lineStart + line.length) - start);
  const mark = start - lineStart < 90 ? [" ".repeat(start - lineStart) + "^".repeat(length)] : [];
  const mend =
    problem.replacement === undefined ? [] : [`  mend      ${problem.replacement || "(nothing)"}`];
  const severity = problem.severity === "stop" ? [] : [`(${problem.severity})`];
  return [line, ...mark, ...severity, formatProblem(problem), ...mend].join("\n");
}
