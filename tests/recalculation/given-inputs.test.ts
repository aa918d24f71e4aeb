import { describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import type { Value } from "../../src/formula/value.ts";
import { generalWords } from "../../src/formula/words/general-words.ts";
import { NotebookSession } from "../../src/recalculation/notebook-session.ts";

const notebook = `---
holdfast: 1
title: Fed from outside
---

    double = 2 * given
    further = double + 1
    apart = 7
`;

const number = (value: number): Value => ({ kind: "number", number: value });
const cases = new TextEncoder().encode("case,eye\n1,right\n2,left\n");

async function session() {
  const made = new NotebookSession<never>({
    vocabulary: new Map(generalWords.map((word) => [word.name, word])),
    inputs: new Set(["cases", "given"]),
    version: "0",
    readCases: (file, matching) => readCases(file, { matching, today: 20_543 }),
    withSetting: (working) => working,
  });
  made.openNotebook("notebook.md", notebook);
  await made.sheet.settled();
  return made;
}

describe("an input besides the cases", () => {
  test("feeds its cells; giving it is named and can be undone", async () => {
    const made = await session();
    const { sheet } = made;
    expect(sheet.state("double")).toEqual({ status: "waiting", waitsFor: ["given"] });
    made.give("give four", "given", { value: number(4), because: "four was given" });
    await sheet.settled();
    expect(sheet.state("further")).toMatchObject({ value: { number: 9 } });
    expect(sheet.because("double")).toContain("four was given");
    expect(made.given("given")?.value).toEqual(number(4));
    expect(made.undoName).toBe("give four");
    made.give("take it away", "given", undefined);
    await sheet.settled();
    expect(sheet.state("double")).toMatchObject({ status: "waiting" });
    made.undo();
    await sheet.settled();
    expect(sheet.state("double")).toMatchObject({ value: { number: 8 } });
    made.undo();
    await sheet.settled();
    expect(made.given("given")).toBeUndefined();
    expect(sheet.state("double")).toMatchObject({ status: "waiting" });
    made.dispose();
  });

  test("is no footing of the cases for what is minuted of it", async () => {
    const made = await session();
    made.openCases("two.csv", cases);
    made.give("give four", "given", { value: number(4), because: "four was given" });
    await made.sheet.settled();
    for (const cell of ["further", "apart"]) made.addMinuted(cell, { day: 20_543, text: "9" });
    expect(made.notebookText()).toMatch(/further = double \+ 1\n {6}minuted 2026-03-31: 9\n/);
    expect(made.notebookText()).toMatch(/apart = 7\n {6}minuted 2026-03-31: 9 \[2 rows/);
    made.dispose();
  });
});
