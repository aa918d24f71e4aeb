import { describe, expect, it } from "vitest";
import { NodeSession } from "./node-session.ts";
import { cell, sentences, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

describe("the page as it is first opened", () => {
  it("shows the demo, and says that its cases are invented", async () => {
    const { page } = await open();
    await expect.poll(() => page.locator("h1").textContent()).toContain("Saltmarsh");
    expect(await page.locator("book-tools .invented").textContent()).toContain("Invented cases");
    expect(await page.locator("book-header .facts").textContent()).toMatch(
      /repairs\.csv · \d+ rows, \d+ eyes, \d+ queries · nothing leaves this machine/,
    );
  });

  it("has nothing to undo: the demo is where the reader begins", async () => {
    const { page } = await open();
    const before = await sentences(page);
    expect(await page.getByRole("button", { name: "Undo" }).isDisabled()).toBe(true);
    await page.keyboard.press("Control+z");
    await page.waitForTimeout(200);
    expect(await sentences(page)).toEqual(before);
  });

  it("says in every cell what the same notebook says in Node", async () => {
    const { page } = await open();
    await settled(page);
    const expected = await new NodeSession().sentences();
    expect(expected.size).toBeGreaterThanOrEqual(7);
    expect(await sentences(page)).toEqual(expected);
    expect(await page.locator("sheet-cell .state").count()).toBe(0);
  });

  it("draws each table with the texts of the answer", async () => {
    const { page } = await open();
    await settled(page);
    const answer = (await new NodeSession().answers()).get("how_often")!;
    const rows = cell(page, "how_often").locator("answer-table tbody tr");
    const shown = await rows.evaluateAll((all) =>
      all.map((row) => [...row.children].map((cell) => cell.textContent?.trim())),
    );
    const texts = answer.table.rows.map((row) =>
      row.map((cell) => (cell.mark === undefined ? cell.text : "")),
    );
    expect(shown).toEqual(texts);
  });

  it("draws the curves once, with their description", async () => {
    const { page } = await open();
    await cell(page, "when").scrollIntoViewIfNeeded();
    const chart = cell(page, "when").locator("answer-chart [role=img]");
    await chart.waitFor();
    expect(await chart.count()).toBe(1);
    expect(await chart.getAttribute("aria-label")).toContain("attached");
    expect(await chart.locator("svg path").count()).toBeGreaterThan(5);
  });
});
