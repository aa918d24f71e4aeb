import { describe, expect, it } from "vitest";
import { tabbedLine, textsIn } from "../../src/page/cases-leaf/tabbed-text.ts";

describe("texts parted by tabs", () => {
  it("are copied line by line, a missing value as nothing", () => {
    expect(tabbedLine(["0001", "–", "a\tb\r\nc", "6/9-2"])).toBe("0001\t\ta b c\t6/9-2");
  });

  it.each([
    [
      "a\tb\nc\td\n",
      [
        ["a", "b"],
        ["c", "d"],
      ],
    ],
    ["a\r\n\r\nb\r\n", [["a"], [""], ["b"]]],
    ["a\rb", [["a"], ["b"]]],
    ["\t\n", [["", ""]]],
    [" left \n", [["left"]]],
    // As spreadsheets write a cell that holds line ends, tabs or quotes (RFC 4180, 2.5 to 2.7).
    ['"two\nlines"\tx\n', [["two\nlines", "x"]]],
    ['"say ""no"""\t"a\tb"', [['say "no"', "a\tb"]]],
    ['"open\tb\n6" band', [['"open', "b"], ['6" band']]],
    ['"a" b\tc', [['"a" b', "c"]]],
  ])("are read from %j", (tabbed, texts) => {
    expect(textsIn(tabbed)).toEqual(texts);
  });
});
