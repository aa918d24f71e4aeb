import { describe, expect, it } from "vitest";
import { findings } from "./axe-findings.ts";
import { cell, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();
describe.each([
  ["on a desk", 1440, 900],
  ["on a telephone", 390, 844],
])("axe-core finds nothing %s", (_where, width, height) => {
  it("on the sheet", async () => {
    const { page } = await open({ width, height });
    await cell(page, "when").scrollIntoViewIfNeeded();
    await cell(page, "when").locator("answer-chart svg").waitFor();
    await settled(page);
    expect(await findings(page)).toEqual([]);
  });

  it("with something found, and a chart being walked along", async () => {
    const { page } = await open({ width, height });
    await page.getByLabel("Find in names, workings and answers").fill("eyes");
    await page.locator("sheet-guide .panel li").first().waitFor();
    expect(await findings(page)).toEqual([]);
    await page.getByLabel("Find in names, workings and answers").fill("");
    await cell(page, "when").scrollIntoViewIfNeeded();
    await cell(page, "when").locator("answer-chart svg").waitFor();
    await cell(page, "when").locator("summary").click();
    await cell(page, "when").locator("answer-chart .ground").focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowRight");
    expect(await findings(page)).toEqual([]);
  });

  it("in the meeting: pages, notes, actions", async () => {
    const { page } = await open({ width, height });
    await page.getByRole("button", { name: "Meeting", exact: true }).click();
    await page.getByRole("button", { name: "Pages", exact: true }).click();
    expect(await findings(page)).toEqual([]);
    await page.getByRole("button", { name: "Notes", exact: true }).click();
    await page.keyboard.press("End");
    await page.locator("meeting-actions[shown]").waitFor();
    expect(await findings(page)).toEqual([]);
  });

  it("with the desk open and a number picked", async () => {
    const { page } = await open({ width, height });
    await cell(page, "how_often").locator("answer-sentence button").first().click();
    await page.locator("eyes-behind tbody tr").first().waitFor();
    await page.locator(".cm-content").waitFor();
    expect(await findings(page)).toEqual([]);
  });

  it.each(["Cases", "Meeting"])("on the leaf %s", async (leaf) => {
    const { page } = await open({ width, height });
    await page.getByRole("button", { name: leaf, exact: true }).click();
    await page
      .locator(leaf === "Cases" ? "[role=rowheader]" : "meeting-page[shown] answer-chart svg")
      .first()
      .waitFor();
    expect(await findings(page)).toEqual([]);
  });
});

describe("axe-core finds nothing", () => {
  it("in the questions that can be asked", async () => {
    const { page } = await open();
    await page.getByRole("button", { name: "Ask another question" }).click();
    await page.getByRole("dialog").waitFor();
    expect(await findings(page)).toEqual([]);
  });

  it("in the notebooks that can be opened", async () => {
    const { page } = await open();
    await page.getByRole("button", { name: "Notebooks" }).click();
    await page.getByRole("dialog").waitFor();
    expect(await findings(page)).toEqual([]);
  });

  it("in a darkened room", async () => {
    const { page } = await open();
    await page.getByRole("button", { name: "Dark room" }).click();
    await cell(page, "when").scrollIntoViewIfNeeded();
    await cell(page, "when").locator("answer-chart svg").waitFor();
    expect(await findings(page)).toEqual([]);
  });
});
