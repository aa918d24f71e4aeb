import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { ColumnMatch, Matching } from "../../src/cases/matching.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { setColumnsAndValues, setTitlePage } from "../../src/notebook/set-front-matter.ts";
import { lineDiff, textOf } from "./line-diff.ts";

const example = `---
# The eye unit's own notebook
holdfast: 1
title:   Detachments   # as minuted
columns:
    # from the theatre system
    Op date:   { field: operation_date,   dayOrder: day first }   # checked
    'Side':  eye

    Notes: leave
period: 2025
values:
  eye: {R: right, L: left}
  macula:
    "on": on   # attached
    detached: off
---
Text
`;

function matchingOf(text: string): Matching {
  return readNotebook(text).notebook.front.matching;
}

function changed(text: string, change: (matching: Matching) => Matching): string {
  return textOf(setColumnsAndValues(readNotebook(text).notebook, change(matchingOf(text))));
}

const column = (heading: string, match: ColumnMatch) => (matching: Matching) => ({
  ...matching,
  columns: new Map([...matching.columns, [heading, match] as const]),
});

describe("keeping the matching changes the lines of its changes alone", () => {
  test("the same matching changes nothing", () => {
    expect(changed(example, (matching) => matching)).toBe(example);
  });
  test("one column changed, its comment kept", () => {
    const after = changed(example, column("Op date", { field: "operation_date" }));
    expect(lineDiff(example, after)).toEqual([
      "-    Op date:   { field: operation_date,   dayOrder: day first }   # checked",
      "+    Op date: operation_date   # checked",
    ]);
  });
  test("one column added, and one of the department's own", () => {
    const own = { name: "drain_volume", kind: "number", unit: "ml, total" } as const;
    const add = (matching: Matching) =>
      column("Lens: before", { field: "lens" })(column("Drain", own)(matching));
    expect(lineDiff(example, changed(example, add))).toEqual([
      '+    Drain: { name: drain_volume, kind: number, unit: "ml, total" }',
      '+    "Lens: before": lens',
    ]);
  });
  test("one column taken out", () => {
    const drop = (matching: Matching) => ({
      ...matching,
      columns: new Map([...matching.columns].filter(([heading]) => heading !== "Side")),
    });
    expect(lineDiff(example, changed(example, drop))).toEqual(["-    'Side':  eye"]);
  });
  test("values changed in place, and others added", () => {
    const change = (matching: Matching): Matching => ({
      ...matching,
      values: new Map([
        [
          "eye",
          new Map([
            ["R", "right"],
            ["L", "left"],
            ["1", "right"],
          ]),
        ],
        [
          "macula",
          new Map([
            ["on", "on"],
            ["detached", "split"],
          ]),
        ],
        ["lens", new Map([["true", "phakic"]])],
      ]),
    });
    expect(lineDiff(example, changed(example, change))).toEqual([
      "-  eye: {R: right, L: left}",
      '+  eye: { R: right, L: left, "1": right }',
      "-    detached: off",
      "+    detached: split",
      '+  lens: { "true": phakic }',
    ]);
  });
  test("all taken out leaves the other keys and comments", () => {
    const after = changed(example, () => ({ columns: new Map(), values: new Map() }));
    expect(matchingOf(after)).toEqual({ columns: new Map(), values: new Map() });
    expect(lineDiff(example, after).every((line) => line.startsWith("-"))).toBe(true);
    expect(after).toContain("# The eye unit's own notebook\nholdfast: 1\ntitle:   Detachments");
  });
});

describe("the title page", () => {
  test("is written key by key, and what is not given stays", () => {
    const text = "---\nholdfast: 1\ntitle: A # kept\nunit: Old unit\nreader: all\n---\n\nText\n";
    const page = { unit: "Unit: north\n", madeBy: "audit lead", reader: "" };
    expect(textOf(setTitlePage(readNotebook(text).notebook, page))).toBe(
      '---\nholdfast: 1\ntitle: A # kept\nunit: "Unit: north"\nmade_by: audit lead\n---\n\nText\n',
    );
    expect(textOf(setTitlePage(readNotebook(text).notebook, {}))).toBe(text);
  });
});

describe("the title", () => {
  test("is set on its own line, with its comment", () => {
    const after = textOf(
      setTitlePage(readNotebook(example).notebook, { title: 'Repairs: "2025" # all' }),
    );
    expect(lineDiff(example, after)).toEqual([
      "-title:   Detachments   # as minuted",
      "+title: 'Repairs: \"2025\" # all'   # as minuted",
    ]);
    expect(readNotebook(after).notebook.front.title).toBe('Repairs: "2025" # all');
  });
  test("is taken out where it is empty", () => {
    const after = textOf(setTitlePage(readNotebook(example).notebook, { title: " " }));
    expect(lineDiff(example, after)).toEqual(["-title:   Detachments   # as minuted"]);
  });
  test.each([
    ["Text\n", "---\nholdfast: 1\ntitle: A\n---\n\nText\n"],
    ["\uFEFFText\r\n", "\uFEFF---\r\nholdfast: 1\r\ntitle: A\r\n---\r\n\r\nText\r\n"],
    ["---\n---\n", "---\ntitle: A\n---\n"],
    ["---\r\nholdfast: 1\r\n---\r\n", "---\r\nholdfast: 1\r\ntitle: A\r\n---\r\n"],
  ])("is added to %j", (text, expected) => {
    expect(textOf(setTitlePage(readNotebook(text).notebook, { title: "A" }))).toBe(expected);
  });
  test("is not changed where the front matter cannot be read", () => {
    expect(textOf(setTitlePage(readNotebook("---\na: [\n---\n").notebook, { title: "A" }))).toBe(
      "The front matter cannot be changed while it cannot be read.",
    );
  });
});

const texts = fc.oneof(
  fc.string({ minLength: 1 }),
  fc.constantFrom(
    "Op date",
    "a: b",
    "# c",
    "true",
    "~",
    "1",
    "007",
    "",
    " lead",
    "trail ",
    "?",
    "- x",
    "[a]",
    "{",
    "&a",
    "*b",
    "!c",
    "'",
    '"',
    "\\",
    "é",
    "a\nb",
    "\u0000",
    "__proto__",
    "constructor",
    "x".repeat(1200),
    "%",
    "@",
    "`",
    "---",
    "...",
    "<<",
    "a #b",
    "key:",
    ":",
    "|",
    ">",
    "\uFEFF",
    "\u2028",
    "\t",
  ),
);
const someText = texts.filter((text) => text !== "");
const columnMatches: fc.Arbitrary<ColumnMatch> = fc.oneof(
  someText.map((field) => ({ field })),
  someText.map((field) => ({ field, dayOrder: "month first" as const })),
  someText.map((field) => ({ field, acuityNotation: "letters" as const })),
  fc.tuple(someText, someText).map(([name, unit]) => ({ name, kind: "code" as const, unit })),
  fc.constant({ leave: true as const }),
);
const matchings: fc.Arbitrary<Matching> = fc.record({
  columns: fc.array(fc.tuple(texts, columnMatches), { maxLength: 5 }).map((some) => new Map(some)),
  values: fc
    .array(
      fc.tuple(
        texts,
        fc
          .array(fc.tuple(texts, texts), { minLength: 1, maxLength: 3 })
          .map((some) => new Map(some)),
      ),
      { maxLength: 3 },
    )
    .map((some) => new Map(some)),
});

describe("any matching", () => {
  test("is read back as it was kept, one after another, and the rest stays", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(example, "Text\n", example.replaceAll("\n", "\r\n")),
        fc.array(matchings, { maxLength: 3 }),
        (text, some) => {
          let before = text;
          for (const matching of some) {
            const edit = setColumnsAndValues(readNotebook(before).notebook, matching);
            if (!edit.ok) throw new Error("refused");
            expect(edit.notebook.front.matching).toEqual(matching);
            before = textOf(edit);
          }
          expect(before.endsWith(text.slice(text.indexOf("Text")))).toBe(true);
        },
      ),
      { numRuns: 500, seed: 7 },
    );
  });
});
