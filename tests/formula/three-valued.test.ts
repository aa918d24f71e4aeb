import { describe, expect, it } from "vitest";
import { both, either, opposite, type Truth } from "../../src/formula/three-valued.ts";
import { work } from "./working.ts";

/**
 * The truth tables of SQL's boolean type (ISO/IEC 9075-2, 6.39 boolean value expression), which
 * are those of Kleene's strong three-valued logic. T true, F false, U unknown: rows and columns
 * in the order T, F, U. Copied from memory, and equal to min and max over F < U < T.
 */
const andTable = ["TFU", "FFF", "UFU"];
const orTable = ["TTT", "TFU", "TUU"];
const notTable = "FTU";

const letters = "TFU";
const truths: readonly Truth[] = [true, false, null];
const words = ["true", "false", "missing"];
const letterOf = (text: string) => letters[words.indexOf(text)];

describe("three-valued logic", () => {
  it.each([
    ["and", andTable, both],
    ["or", orTable, either],
  ] as const)("%s follows the table, in functions and in workings", (operator, table, join) => {
    truths.forEach((left, row) => {
      truths.forEach((right, column) => {
        const expected = table[row]![column];
        expect(letters[truths.indexOf(join(left, right))]).toBe(expected);
        expect(letterOf(work(`${words[row]} ${operator} ${words[column]}`))).toBe(expected);
      });
    });
  });

  it("not follows the table", () => {
    truths.forEach((truth, row) => {
      expect(letters[truths.indexOf(opposite(truth))]).toBe(notTable[row]);
      expect(letterOf(work(`not ${words[row]}`))).toBe(notTable[row]);
    });
  });

  it("has the least for and, the greatest for or, over false < missing < true", () => {
    const rank = (truth: Truth) => (truth === null ? 0 : truth ? 1 : -1);
    for (const left of truths) {
      for (const right of truths) {
        expect(rank(both(left, right))).toBe(Math.min(rank(left), rank(right)));
        expect(rank(either(left, right))).toBe(Math.max(rank(left), rank(right)));
      }
    }
  });
});
