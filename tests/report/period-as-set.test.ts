import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { periodAsSet } from "../../src/report/period-as-set.ts";

const periodOf = (text: string) => periodAsSet(readNotebook(text).notebook);
const notebook = (period: string, working: string) =>
  `---\nholdfast: 1\nperiod: ${period}\n---\n\n    span = ${working}\n`;

describe("the period on the title page", () => {
  test.each(readdirSync("notebooks").filter((name) => name.endsWith(".md")))(
    "%s names what its sheet is set to",
    (name) => {
      const text = readFileSync(`notebooks/${name}`, "utf8");
      expect(periodOf(text)).toBe(readNotebook(text).notebook.front.period);
    },
  );

  test("days that the sheet is not set to are followed by those it is", () => {
    const set = notebook("operated from 2023-01-01 to 2025-12-31", "dates(2025-10-01, 2025-12-31)");
    expect(periodOf(set)).toBe(
      "operated from 2023-01-01 to 2025-12-31; the sheet is set to 2025-10-01 to 2025-12-31",
    );
  });

  test.each([
    ["operated from 2025-10-01 to 2025-12-31", "dates(2025-10-01, 2025-12-31)"],
    ["the winter", "dates(2025-10-01, 2025-12-31)"],
    ["operated from 2023-01-01 to 2025-12-31", "2 + 2"],
  ])("%s stays with %s", (period, working) => {
    expect(periodOf(notebook(period, working))).toBe(period);
  });

  test("none is none", () =>
    expect(periodOf("    span = dates(2025-10-01, 2025-12-31)\n")).toBe(undefined));
});
