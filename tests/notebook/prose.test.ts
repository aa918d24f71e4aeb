import { describe, expect, it } from "vitest";
import { readProse, readRuns } from "../../src/notebook/prose.ts";

const plain = (text: string) => ({ text, style: "plain" });

describe("blocks of prose", () => {
  it("parts paragraphs by blank lines and joins their lines", () => {
    expect(readProse("one\ntwo\n\nthree\r\n")).toEqual([
      { type: "paragraph", runs: [plain("one two")] },
      { type: "paragraph", runs: [plain("three")] },
    ]);
  });

  it("reads lists, with items over several lines", () => {
    expect(readProse("- one\n  more\n- two\n\n1. first\n2. second")).toEqual([
      { type: "list", ordered: false, items: [[plain("one more")], [plain("two")]] },
      { type: "list", ordered: true, items: [[plain("first")], [plain("second")]] },
    ]);
  });

  it("reads headings and quotes", () => {
    expect(readProse("## When? ##\nSoon.\n\n> so they\n> say")).toEqual([
      { type: "heading", level: 2, runs: [plain("When?")] },
      { type: "paragraph", runs: [plain("Soon.")] },
      { type: "quote", runs: [plain("so they say")] },
    ]);
  });
});

/** Examples of the CommonMark specification, version 0.31.2, by their numbers there. */
describe("runs of a line", () => {
  it.each([
    ["*foo bar*", [{ text: "foo bar", style: "emphasis" }]], // 350
    ["a * foo bar*", [plain("a * foo bar*")]], // 351
    ["_foo bar_", [{ text: "foo bar", style: "emphasis" }]], // 357
    ["foo_bar_baz", [plain("foo_bar_baz")]], // 360 with ASCII letters
    ["**foo bar**", [{ text: "foo bar", style: "strong" }]], // 378
    ["** foo bar**", [plain("** foo bar**")]], // 379
    ["`foo`", [{ text: "foo", style: "code" }]], // 328
    ["*foo`*`", [plain("*foo"), { text: "*", style: "code" }]], // 341
  ])("%s", (text, runs) => {
    expect(readRuns(text)).toEqual(runs);
  });

  it("keeps the text of a link and drops its address", () => {
    expect(readRuns("see [the guide](https://example.org/a) now")).toEqual([
      plain("see the guide now"),
    ]);
  });

  it("leaves markup of any other kind as it was written", () => {
    expect(readRuns("<img src=x onerror=alert(1)>")).toEqual([
      plain("<img src=x onerror=alert(1)>"),
    ]);
  });
});
