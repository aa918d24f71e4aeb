import { expect, it } from "vitest";
import { percentText } from "../../src/charts/percent-text.ts";
import { plainText } from "../../src/charts/plain-text.ts";
import { timeText } from "../../src/charts/time-text.ts";

it.each([
  [0, 0, "0%"],
  [1, 0, "100%"],
  [0.136, 0, "14%"],
  [0.136, 1, "13.6%"],
  [0.9996, 0, ">99%"],
  [0.9996, 1, ">99.9%"],
  [0.0004, 0, "<1%"],
  [0.0004, 1, "<0.1%"],
])("shows %d with %i decimals as %s", (fraction, decimals, text) => {
  expect(percentText(fraction, decimals)).toBe(text);
});

it("shows whole months of 365.25 / 12 days as such, other days with a decimal", () => {
  expect([0, 30, 91, 183, 274, 365, 731].map((day) => timeText(day, "months"))).toEqual(
    ["0 mo", "1 mo", "3 mo", "6 mo", "9 mo", "12 mo", "24 mo"], // 24 months are 730.5 days
  );
  expect(timeText(100, "months")).toBe("3.3 mo");
  expect(timeText(365, "years")).toBe("1 yr");
  expect(timeText(90, "days")).toBe("90 d");
});

it("puts any text on one line, without characters that XML forbids", () => {
  expect(plainText(" a\r\n\tb\u0000c ")).toBe("a b c");
  expect(plainText("left\u202eright")).toBe("left right");
  expect(plainText("half \ud800.")).toBe("half \ufffd.");
  expect(plainText("網膜 😀")).toBe("網膜 😀");
  expect(plainText(" \n ")).toBe("(no name)");
});
