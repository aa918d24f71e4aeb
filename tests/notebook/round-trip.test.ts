import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { writeNotebook } from "../../src/notebook/write-notebook.ts";

const pieces = [
  "---",
  "holdfast: 1",
  "title: x",
  "columns:",
  "  A: eye",
  "  A: { field: b",
  "values: [",
  "\uFEFF",
  "# h",
  "===",
  "- item",
  "1. item",
  "> q",
  "```",
  "~~~",
  "<!--",
  "-->",
  "<table>",
  "text",
  "",
  " ",
  "\t",
  "    a = 1",
  "    a = f(",
  "      b)",
  "\ta = 1",
  "    a=2  ",
  "     x",
  "    = 3",
  "      minuted 2026-03-14: 60 of 442",
  "      minuted 2026-02-31: 1",
  "    __proto__ = 1",
  "    é = 1",
  "\u2028",
  "\u0000",
  "\ud800",
  "...",
  "? x",
  ": y",
  "&a b",
  "*a",
  "!t x",
  "%YAML 1.2",
];

const documents = fc
  .array(
    fc.tuple(
      fc.oneof(fc.constantFrom(...pieces), fc.string(), fc.string({ unit: "binary" })),
      fc.constantFrom("\n", "\r\n", "\r", "\n\n", ""),
    ),
    { maxLength: 30 },
  )
  .map((lines) => lines.map(([text, ending]) => text + ending).join(""));

describe("writing is the exact inverse of reading", () => {
  test("for any text, and reading never throws", () => {
    fc.assert(
      fc.property(documents, (text) => {
        expect(writeNotebook(readNotebook(text).notebook)).toBe(text);
      }),
      { numRuns: 2000, seed: 20260314 },
    );
  });

  test("each block and definition lies where it says, in order, without overlap", () => {
    fc.assert(
      fc.property(documents, (text) => {
        const { notebook } = readNotebook(text);
        let end = notebook.front.lines.to;
        for (const { lines } of notebook.blocks) {
          expect(lines.from).toBeGreaterThanOrEqual(end);
          expect(lines.to).toBeGreaterThan(lines.from);
          end = lines.to;
        }
        expect(end).toBeLessThanOrEqual(notebook.lines.length);
      }),
      { numRuns: 1000, seed: 20260315 },
    );
  });
});
