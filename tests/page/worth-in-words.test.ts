import { describe, expect, it } from "vitest";
import { duration, missing, type Value } from "../../src/formula/value.ts";
import { worthInWords } from "../../src/page/worker/worth-in-words.ts";

const number = (of: number): Value => ({ kind: "number", number: of });

describe("what a cell is worth, in words", () => {
  it.each<[Value, string]>([
    [missing, "missing"],
    [number(60 / 442), "0.135747"],
    [number(1_234_567), "1234567"],
    [number(Number.NaN), "not a number"],
    [{ kind: "truth", truth: false }, "no"],
    [{ kind: "text", text: "vitrectomy" }, "vitrectomy"],
    [{ kind: "day", day: 20_453 }, "2025-12-31"],
    [duration(1, "month"), "1 month"],
    [duration(90, "day"), "90 days"],
    [{ kind: "list", items: [number(1), number(2)] }, "1, 2"],
    [
      { kind: "thing", of: "cases", parts: new Map([["rows_read", number(4)]]), content: null },
      "cases: rows read 4",
    ],
  ])("%o", (value, words) => {
    expect(worthInWords(value)).toBe(words);
  });
});
