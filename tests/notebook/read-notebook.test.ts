import { describe, expect, test } from "vitest";
import {
  type Block,
  definitionNamed,
  definitionsOf,
  placeInFile,
  titleOf,
} from "../../src/notebook/notebook-document.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";

const example = `---
holdfast: 1
title: Detachments 2025 # as minuted
period: 2024-01-01 to 2025-12-31
unit: Eye unit
columns:
  Op date: { field: operation_date, dayOrder: day first }
  Side: eye
  Drain: { name: drain_volume, kind: number, unit: ml }
  007: leave
values:
  eye: { 1: right, 2: left }
  macula:
    yes: on
    no: "off"
---
## How often did it fail?

Every eye with a primary repair in the period,
followed to its last visit.

    failure_means = choose(["redetachment", "reoperation"], now: "redetachment")
    window        = choose([3 months, 12 months], now: 12 months)

    eyes      = index_eyes(cases,
                  failure: failure_means,
      within: window)

    how_often = failure_rate(eyes, by: technique)
      minuted 2026-03-14: 60 of 442
      minuted 2025-03-15: 13.6%

\`\`\`
    not_a_cell = 3
\`\`\`
`;

/** A block on one line: "heading 2: Title", "list: - a", "row: a, b". */
function outline(text: string): string[] {
  return readNotebook(text).notebook.blocks.map(outlineOf);
}

function outlineOf(block: Block): string {
  if (block.type === "heading") return `heading ${block.level}: ${block.text}`;
  if (block.type === "prose") return `${block.form}: ${block.text}`;
  return `row: ${block.definitions.map((definition) => definition.name).join(", ")}`;
}

function names(text: string): string[] {
  return definitionsOf(readNotebook(text).notebook).map((definition) => definition.name);
}

describe("a whole notebook", () => {
  const { notebook, problems } = readNotebook(example, "detachments.md");

  test("has nothing wrong with it", () => expect(problems).toEqual([]));

  test("is read into blocks in reading order", () => {
    expect(notebook.blocks.map(outlineOf)).toEqual([
      "heading 2: How often did it fail?",
      "paragraph: Every eye with a primary repair in the period,\nfollowed to its last visit.",
      "row: failure_means, window",
      "row: eyes",
      "row: how_often",
      "code: ```\n    not_a_cell = 3\n```",
    ]);
  });

  test("has its front matter read as text that guesses nothing", () => {
    const { version, title, period, unit, matching } = notebook.front;
    expect({ version, title, period, unit }).toEqual({
      version: 1,
      title: "Detachments 2025",
      period: "2024-01-01 to 2025-12-31",
      unit: "Eye unit",
    });
    expect([...matching.columns]).toEqual([
      ["Op date", { field: "operation_date", dayOrder: "day first" }],
      ["Side", { field: "eye" }],
      ["Drain", { name: "drain_volume", kind: "number", unit: "ml" }],
      ["007", { leave: true }],
    ]);
    expect([...matching.values].map(([field, codes]) => [field, [...codes]])).toEqual([
      [
        "eye",
        [
          ["1", "right"],
          ["2", "left"],
        ],
      ],
      [
        "macula",
        [
          ["yes", "on"],
          ["no", "off"],
        ],
      ],
    ]);
  });

  test("has workings over several lines without their indentation", () => {
    const eyes = definitionNamed(notebook, "eyes")!;
    expect(eyes.working).toBe(
      "index_eyes(cases,\n            failure: failure_means,\nwithin: window)",
    );
    const offset = eyes.working.indexOf("within");
    expect(placeInFile(eyes, offset)).toEqual({ line: 27, column: 7 });
    expect(example.split("\n")[26]!.slice(6, 12)).toBe("within");
  });

  test("has its minuted lines", () => {
    const { minuted } = definitionNamed(notebook, "how_often")!;
    expect(minuted.map(({ day, text, line }) => ({ day, text, line }))).toEqual([
      { day: 20526, text: "60 of 442", line: 29 },
      { day: 20162, text: "13.6%", line: 30 },
    ]);
  });
});

/** What CommonMark 0.31.2 says of the same documents, example by example. */
describe("prose ends and definitions begin where CommonMark has it", () => {
  test("indented code does not interrupt a paragraph (example 113)", () => {
    expect(outline("Foo\n    bar = 1\n")).toEqual(["paragraph: Foo\n    bar = 1"]);
  });
  test("it may follow a heading, a rule or a fence directly (example 115)", () => {
    expect(names("# Heading\n    a = 1\nHeading\n------\n    b = 2\n----\n    c = 3\n")).toEqual([
      "a",
      "b",
      "c",
    ]);
  });
  test("four spaces are needed, and a tab is as good (examples 1 and 2)", () => {
    expect(names("   a = 1\n\n\tb = 2\n\n  \tc = 3\n")).toEqual(["b", "c"]);
  });
  test("a fence holds everything up to its like, or to the end (examples 120 to 128)", () => {
    expect(names("~~~\n\n    a = 1\n```\n~~~\n\n    b = 2\n")).toEqual(["b"]);
    expect(names("````\n```\n\n    a = 1\n````\n\n    b = 2\n")).toEqual(["b"]);
    expect(names("```\n\n    a = 1\n")).toEqual([]);
    expect(names("``` a`b\n\n    a = 1\n")).toEqual(["a"]);
  });
  test("a comment holds everything up to its end (example 179)", () => {
    expect(names("<!-- off\n\n    a = 1\n-->\n\n    b = 2\n")).toEqual(["b"]);
  });
  test("another HTML block ends with an empty line (example 148)", () => {
    expect(names("<table>\n    a = 1\n\n    b = 2\n")).toEqual(["b"]);
  });
  test("headings with marks and with underlines (examples 62, 71, 80)", () => {
    expect(outline("# foo\n## bar ##\n####### baz\n\nFoo *bar*\n====\n\n#\n")).toEqual([
      "heading 1: foo",
      "heading 2: bar",
      "paragraph: ####### baz",
      "heading 1: Foo *bar*",
      "heading 1: ",
    ]);
  });
  test("what is indented below a list is its text, unless it is a definition", () => {
    expect(
      outline("- one\n\n    more of one\n\n1. ```\n\n   a = 1\n   ```\n\n    b = 2\n"),
    ).toEqual([
      "list: - one",
      "list:     more of one",
      "code: 1. ```\n\n   a = 1\n   ```",
      "row: b",
    ]);
  });
  test("quotes are prose", () => {
    expect(outline("> said\n>     a = 1\n\n    b = 2")).toEqual([
      "quote: > said\n>     a = 1",
      "row: b",
    ]);
  });
});

describe("rows", () => {
  test("a fifth definition begins another row and says so", () => {
    const text = "    a = 1\n    b = 2\n    c = 3\n    d = 4\n    e = 5\n";
    expect(outline(text)).toEqual(["row: a, b, c, d", "row: e"]);
  });
  test("a working may begin on the line below its name, or be empty", () => {
    const { notebook } = readNotebook("    a =\n      f(1,\n        2)\n    b =  \n");
    expect(definitionsOf(notebook).map(({ name, working }) => [name, working])).toEqual([
      ["a", "f(1,\n  2)"],
      ["b", ""],
    ]);
  });
  test("a comparison with == is not a definition", () => {
    expect(names("    a == 1\n")).toEqual([]);
  });
  test("names are read in Unicode normal form C", () => {
    expect(names("    \u0065\u0301tat = 1\n")).toEqual(["\u00e9tat"]);
  });
  test("names that objects inherit are names like any other", () => {
    expect(names("    __proto__ = 1\n    constructor = 2\n")).toEqual(["__proto__", "constructor"]);
  });
});

describe("the title", () => {
  test.each([
    ["---\nholdfast: 1\ntitle: A\n---\n# B\n", "A"],
    ["Text\n\n# B\n", "B"],
    ["", "Notebook"],
  ])("of %j is %s", (text, title) => expect(titleOf(readNotebook(text).notebook)).toBe(title));
});
