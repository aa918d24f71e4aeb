import { describe, expect, test } from "vitest";
import { readSources, rings, wrongImports } from "./imports.ts";

const sources = readSources("src");
const file = (path: string, text: string) => ({ path, text });

describe("the house", () => {
  test("imports go down only, and each library enters by its door", () => {
    expect(wrongImports(sources)).toEqual([]);
  });

  test("no ring of imports", () => {
    expect(rings(sources)).toEqual([]);
  });

  test("no barrel files and no rooms for odds and ends", () => {
    const names = sources.map(({ path }) => path.split("/").at(-1));
    expect(names.filter((name) => /^(index|utils|helpers|common|misc)\.ts$/.test(name!))).toEqual(
      [],
    );
  });

  test("no file over 300 lines", () => {
    const long = sources.filter(({ text }) => text.split("\n").length > 301);
    expect(long.map(({ path }) => path)).toEqual([]);
  });
});

describe("the check of the house itself", () => {
  test.each([
    [
      "import { a } from '../page/a.ts';",
      "cases/x.ts imports page/a.ts: cases may not import page",
    ],
    [
      "import type { A } from '../outcomes/a.ts';",
      "cases/x.ts imports outcomes/a.ts: cases may not import outcomes",
    ],
    [
      "export { a } from '../formula/a.ts';",
      "cases/x.ts imports formula/a.ts: cases may not import formula",
    ],
    [
      "const a = await import('../command/a.ts');",
      "cases/x.ts imports command/a.ts: cases may not import command",
    ],
    [
      "type A = import('../report/a.ts').A;",
      "cases/x.ts imports report/a.ts: cases may not import report",
    ],
    ["import 'vega';", "cases/x.ts imports vega: its door is charts"],
    [
      "import x from 'left-pad';",
      "cases/x.ts imports left-pad, a library that no room is the door for",
    ],
    ["import x from '../../tests/a.ts';", "cases/x.ts imports ../tests/a.ts, outside the source"],
  ])("finds %s", (text, complaint) => {
    expect(wrongImports([file("cases/x.ts", text)])).toEqual([complaint]);
  });

  test("finds a library that enters twice and a file in no room", () => {
    const twice = [
      file("cases/a.ts", "import 'arquero';"),
      file("cases/b.ts", "import 'arquero';"),
    ];
    expect(wrongImports(twice)).toEqual(["^arquero$ enters by cases/a.ts and cases/b.ts"]);
    expect(wrongImports([file("attic/a.ts", "")])).toEqual([
      "attic/a.ts stands in no room of the house",
    ]);
  });

  test("finds a ring, type-only imports counted", () => {
    const ring = [
      file("cases/a.ts", "import type { B } from './b.ts';"),
      file("cases/b.ts", "import { c } from './c.ts';"),
      file("cases/c.ts", "import './a.ts';"),
    ];
    expect(rings(ring)).toEqual(["cases/a.ts -> cases/b.ts -> cases/c.ts -> cases/a.ts"]);
  });

  test("lets an import go down", () => {
    const down = [file("report/a.ts", "import { b } from '../statistics/b.ts';")];
    expect(wrongImports(down)).toEqual([]);
  });
});
