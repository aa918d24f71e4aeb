import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { cell, settled } from "./opened-page.ts";
import { projectPath } from "./project-path.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** What answers from the cases in the page; these ask of other files. */
const ofOtherFiles = new Map([
  ["retinopathy.md", "a published data set, of other eyes than the demo's"],
]);

describe("the first minute", () => {
  it("offers three ways on, which can be put away", async () => {
    const { page } = await open();
    const ways = page.locator("three-ways .way strong");
    expect(await ways.allTextContents()).toEqual([
      "Open my cases",
      "Start from a question",
      "Show me around",
    ]);
    await page.getByRole("button", { name: "Put this away" }).click();
    await expect.poll(() => page.locator("three-ways").count()).toBe(0);
  });

  it("starts from a question", async () => {
    const { page } = await open();
    await page
      .locator("three-ways")
      .getByRole("button", { name: /Start from a question/ })
      .click();
    await page
      .getByRole("dialog")
      .getByRole("button", { name: /^Why did it fail/ })
      .click();
    await cell(page, "why_fail").locator("answer-sentence").waitFor();
    await expect.poll(() => page.locator("three-ways").count()).toBe(0);
  });

  it("shows the reader around", async () => {
    const { page } = await open();
    await page
      .locator("three-ways")
      .getByRole("button", { name: /Show me around/ })
      .click();
    await page.locator("h1", { hasText: "First steps" }).waitFor();
    await settled(page);
    expect(await page.locator("sheet-cell .state.fault").count()).toBe(0);
  });

  it("shows another notebook from its beginning", async () => {
    const { page } = await open();
    await cell(page, "rows_and_eyes").scrollIntoViewIfNeeded();
    const scrolled = () => page.locator("main").evaluate((main) => main.scrollTop);
    expect(await scrolled()).toBeGreaterThan(100);
    await page.getByRole("button", { name: "Notebooks" }).click();
    await page
      .getByRole("dialog")
      .getByRole("button", { name: /quarterly-meeting/ })
      .click();
    await page.locator("h1", { hasText: "quarter" }).waitFor();
    await expect.poll(scrolled).toBe(0);
  });

  it("offers every notebook that the cases and the departments in the page answer", async () => {
    const { page } = await open();
    await page.getByRole("button", { name: "Notebooks" }).click();
    const names = page.getByRole("dialog").locator(".choices span");
    const shipped = readdirSync(projectPath("notebooks"))
      .filter((name) => name.endsWith(".md") && !ofOtherFiles.has(name))
      .sort();
    expect((await names.allTextContents()).sort()).toEqual(shipped);
  });
});
