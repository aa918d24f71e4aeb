import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { departments } from "../../data-demo/write-departments.ts";
import { chromiumPath } from "../../src/command/print-pdf.ts";
import { run } from "../../src/command/run.ts";
import { shippedNotebooks } from "../notebooks/shipped-notebooks.ts";
import { openBrowser } from "./open-browser.ts";
import { layOnPaper, pageBreaks, papers } from "./page-breaks.ts";

const into = mkdtempSync(join(tmpdir(), "holdfast-printed-"));
const ofDepartments = departments.map(({ file }) => join("data-demo/departments", file));
const notebooks: readonly (readonly [string, readonly string[]])[] = [
  ...shippedNotebooks.map(({ name, path, cases }) => [name, [path, cases]] as const),
  ["pooled.md", ["notebooks/pooled.md", ...ofDepartments, "--aggregates"]],
];
const sizes = Object.keys(papers) as (keyof typeof papers)[];

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

/** The report as the command line writes it. */
async function written(name: string, given: readonly string[]): Promise<string> {
  const folder = join(into, name);
  const speaker = { say: () => {}, warn: () => {}, isTerminal: false, today: 20_557 };
  const exit = await run(
    ["report", ...given, "--into", folder, "--dated", "2026-04-14", "--quiet"],
    speaker,
  );
  expect(exit).toBe(0);
  return readFileSync(join(folder, "report.html"), "utf8");
}

async function shown(html: string): Promise<Page> {
  const page = await browser.newPage();
  await page.setContent(html);
  return page;
}

describe.each(notebooks)("the printed report of %s", (name, given) => {
  it("breaks nothing in two, leaves no heading at a foot and nothing beyond the edge", async () => {
    const html = await written(name, given);
    for (const paper of sizes) {
      const page = await shown(html);
      const { faults, sheets } = await pageBreaks(page, await layOnPaper(page, paper));
      await page.close();
      expect(faults, paper).toEqual([]);
      expect(sheets).toBeGreaterThan(2);
    }
  }, 120_000);
});

describe("the report on a screen", () => {
  it.each([390, 820, 1280])("%s pixels wide is not wider than that", async (width) => {
    const page = await shown(await written("screen", notebooks.at(-2)![1]));
    await page.setViewportSize({ width, height: 900 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
      width,
    );
    await page.close();
  });
});

describe("the measure of breaks", () => {
  it.each([
    ["in two", "<div style='height: 900px'></div><figure style='height: 300px'>chart</figure>"],
    [
      "heading at the foot",
      "<div style='height: 850px'></div><h2>h</h2><p style='height: 90px; break-inside: avoid'>p</p>",
    ],
    ["beyond the edge", "<table><tr><td><div style='width: 900px'>wide</div></td></tr></table>"],
    [
      "a row alone",
      `<table><tbody>${"<tr style='break-inside: avoid'><td style='height: 90px'>row</td></tr>".repeat(11)}</tbody></table>`,
    ],
  ])("tells %s", async (fault, body) => {
    const page = await shown(`<!doctype html><body>${body}`);
    const { faults } = await pageBreaks(page, await layOnPaper(page, "A4"));
    await page.close();
    expect(faults.map((each) => each.split(":")[0])).toContain(fault);
  });

  it.skipIf(chromiumPath() === undefined)(
    "counts as many sheets as the PDF has",
    async () => {
      const folder = join(into, "as-pdf");
      const speaker = { say: () => {}, warn: () => {}, isTerminal: false, today: 20_557 };
      const given = ["notebooks/retinopathy.md", "tests/references/data/retinopathy.csv"];
      await run(["report", ...given, "--into", folder, "--pdf", "--quiet"], speaker);
      const pdf = readFileSync(join(folder, "report.pdf"), "latin1");
      const page = await shown(readFileSync(join(folder, "report.html"), "utf8"));
      const { sheets } = await pageBreaks(page, await layOnPaper(page, "A4"));
      await page.close();
      expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(sheets);
    },
    60_000,
  );
});
