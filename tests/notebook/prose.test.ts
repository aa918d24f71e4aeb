import { describe, expect, it } from "vitest";
import { readProse } from "../../src/notebook/prose.ts";
import { readRuns } from "../../src/notebook/prose-runs.ts";

const plain = (text: string) => ({ text, style: "plain" });

const em = (text: string) => ({ text, style: "emphasis" });
const strong = (text: string) => ({ text, style: "strong" });

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

/** Examples of the CommonMark specification, version 0.31.2; their numbers are from memory. */
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
    ['a*"foo"*', [plain('a*"foo"*')]], // 352
    ["foo*bar*", [plain("foo"), em("bar")]], // 355
    ["_ foo bar_", [plain("_ foo bar_")]], // 358
    ["foo-_(bar)_", [plain("foo-"), em("(bar)")]], // 364
    ["_foo*", [plain("_foo*")]], // 365
    ["*foo bar *", [plain("*foo bar *")]], // 366
    ["*(*foo)", [plain("*(*foo)")]], // 368
    ["*(*foo*)*", [em("(foo)")]], // 369, one emphasis within another
    ['a**"foo"**', [plain('a**"foo"**')]], // 380
    ["foo**bar**", [plain("foo"), strong("bar")]], // 381
    ["**foo bar **", [plain("**foo bar **")]], // 391
    ["*foo**bar**baz*", [em("foo"), strong("bar"), em("baz")]], // 410
    ["***foo** bar*", [strong("foo"), em(" bar")]], // 413
    ["foo ***", [plain("foo ***")]], // 436
    ["foo *\\**", [plain("foo "), em("*")]], // 437
    ["**foo*", [plain("*"), em("foo")]], // 442
    ["*foo**", [em("foo"), plain("*")]], // 443
    ["\\*not emphasized*", [plain("*not emphasized*")]], // 14, its first line
    ["`` foo ` bar ``", [{ text: "foo ` bar", style: "code" }]], // 329
    ["`foo", [plain("`foo")]], // 348, one backtick
  ])("%s", (text, runs) => {
    expect(readRuns(text)).toEqual(runs);
  });

  it("keeps a span of code between marks", () => {
    expect(readRuns("*a `b*` c*")).toEqual([em("a "), { text: "b*", style: "code" }, em(" c")]);
    expect(readRuns("**see [the *guide*](x)**")).toEqual([strong("see the guide")]);
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
