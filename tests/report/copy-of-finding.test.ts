import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { sentenceText } from "../../src/questions/answer.ts";
import { type CopiedFinding, copyOfFinding } from "../../src/report/copy-of-finding.ts";
import type { ReportedCell, ReportInput } from "../../src/report/report-input.ts";
import { answeredOf, reportOf } from "./disclosure/shared-notebook.ts";
import { faultOf } from "./slides/well-formed.ts";

let input: ReportInput;
const cell = (name: string): ReportedCell => {
  const found = input.cells.find((each) => each.name === name);
  if (found === undefined) throw new Error(`no cell ${name}`);
  return found;
};
let copied: CopiedFinding | undefined;

beforeAll(async () => {
  input = await reportOf("notebooks/demo.md", readFileSync("data-demo/repairs.csv"));
  copied = await copyOfFinding(cell("how_often"));
});

describe("a finding for the clipboard", () => {
  test("as text: the sentence, a line of the table for each row, the cautions", () => {
    const answer = answeredOf(cell("how_often"))?.answer;
    if (answer === undefined) throw new Error("no answer");
    expect(copied?.text.startsWith(sentenceText(answer.sentence))).toBe(true);
    const lines = copied?.text.split("\n").filter((line) => line.includes("\t")) ?? [];
    expect(lines).toHaveLength(answer.table.rows.length + 1);
    expect(new Set(lines.map((line) => line.split("\t").length)).size).toBe(1);
    for (const { text } of answer.cautions) expect(copied?.text).toContain(text);
  });

  test("as HTML: well formed, with a real table", () => {
    expect(faultOf(`<div>${copied?.html}</div>`)).toBeUndefined();
    expect(copied?.html).toContain('<th scope="col">');
  });

  test("as a picture that stands alone", () => {
    expect(faultOf(copied?.svg ?? "")).toBeUndefined();
    expect(copied?.svg).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg" width="760"/);
  });

  test("nothing for a cell without an answer", async () => {
    expect(await copyOfFinding(cell("eyes"))).toBeUndefined();
  });

  test("no text of the file becomes a tag or another cell", async () => {
    const { state } = cell("how_often");
    const answered = answeredOf(cell("how_often"));
    if (state.status !== "current" || answered === undefined) throw new Error("no answer");
    const table = {
      columns: [{ label: "group", kind: "text" as const }],
      rows: [[{ text: "<b>oil\t&\nair</b>", value: "" }]],
    };
    const value = {
      ...state.value,
      content: { ...answered, answer: { ...answered.answer, table } },
    };
    const odd = await copyOfFinding({ ...cell("how_often"), state: { ...state, value } as never });
    expect(odd?.html).toContain("&lt;b&gt;oil");
    expect(odd?.text).toContain("\n<b>oil & air</b>\n");
  });
});
