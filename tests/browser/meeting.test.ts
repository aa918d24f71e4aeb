import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { cell, drop, focused, textOf } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

async function meeting(text?: string) {
  const { page } = await open();
  if (text !== undefined) {
    await drop(page, "meeting.md", text);
    await cell(page, "by_surgeon").locator("answer-sentence").waitFor();
  }
  await page.getByRole("button", { name: "Meeting", exact: true }).click();
  await page.locator("meeting-page[shown]").waitFor();
  return page;
}

const place = (page: Page) => page.locator("meeting-leaf footer [aria-live]");

const withPeople = `---
holdfast: 1
title: People
---

    eyes = index_eyes(cases)

## Who operates

Say first that this compares nobody.

    by_surgeon = failure_rate(eyes, by: surgeon)
`;

describe("the meeting", () => {
  it("is turned by a remote, whatever has the keyboard, and goes black", async () => {
    const page = await meeting();
    await page.getByRole("button", { name: "Pages", exact: true }).focus();
    await page.keyboard.press("PageDown");
    await expect.poll(() => place(page).textContent()).toMatch(/^2 of/);
    await page.keyboard.press("PageUp");
    await expect.poll(() => place(page).textContent()).toMatch(/^1 of/);
    await page.locator("meeting-leaf .meeting").focus();
    await page.keyboard.press("b");
    await page.locator("meeting-leaf .black").waitFor();
    expect(await focused(page)).toContain("A black page");
    await page.keyboard.press("PageDown");
    await expect.poll(() => page.locator("meeting-leaf .black").count()).toBe(0);
    expect(await place(page).textContent()).toMatch(/^1 of/);
    await page.keyboard.press(".");
    await page.locator("meeting-leaf .black").click();
    await expect.poll(() => page.locator("meeting-leaf .black").count()).toBe(0);
  });

  it("lists its pages, and turns to one of them", async () => {
    const page = await meeting();
    await page.getByRole("button", { name: "Pages", exact: true }).click();
    const count = Number(/of (\d+)$/.exec((await place(page).textContent()) ?? "")?.[1]);
    const pages = page.locator("meeting-leaf aside li button");
    expect(await pages.count()).toBe(count);
    await pages.nth(2).click();
    await expect.poll(() => place(page).textContent()).toBe(`3 of ${count}`);
    expect(await pages.nth(2).getAttribute("aria-current")).toBe("page");
  });

  it("shows the prose above the cell to whoever presents", async () => {
    const page = await meeting(withPeople);
    await page.getByRole("button", { name: "Notes", exact: true }).click();
    const notes = page.locator("meeting-leaf aside prose-block p");
    await expect
      .poll(() => notes.allTextContents())
      .toEqual(["Say first that this compares nobody."]);
  });

  it("hides codes of people until they are asked for", async () => {
    const page = await meeting(withPeople);
    const firsts = () =>
      page.locator("meeting-page[shown] tbody tr > :first-child").allTextContents();
    expect((await firsts()).every((text) => /^\s*(person \d+|all eyes)\s*$/.test(text))).toBe(true);
    await page.getByRole("button", { name: "Codes of people" }).click();
    await expect.poll(async () => (await firsts()).map((text) => text.trim())).toContain("T1");
  });

  it("keeps what was agreed and what was told in the notebook", async () => {
    const page = await meeting();
    await page.keyboard.press("End");
    await page.getByLabel("What is to be done").fill("Ask why gas was chosen");
    await page.getByRole("button", { name: "Agree", exact: true }).click();
    const items = page.locator("meeting-actions prose-block li");
    await expect
      .poll(() => items.allTextContents())
      .toEqual([expect.stringMatching(/^\d{4}-\d\d-\d\d: Ask why gas was chosen$/)]);
    await page.keyboard.press("Escape");
    await page.locator("meeting-leaf .meeting").focus();
    await page.keyboard.press("Home");
    const shown = page.locator("meeting-page[shown]");
    await expect.poll(() => shown.locator(".told").first().textContent()).toContain("Minuted");
    const before = await shown.locator(".told").count();
    const keep = page.locator("meeting-page:has(.keep)").first();
    const name = await keep.evaluate(
      (at) => (at as unknown as { view: { name: string } }).view.name,
    );
    await page.getByRole("button", { name: "Pages", exact: true }).click();
    await page.locator("meeting-leaf aside button", { hasText: `(${name})` }).click();
    await page.locator("meeting-page[shown] .keep").click();
    await expect
      .poll(() => page.locator("meeting-page[shown] .told").last().textContent())
      .toMatch(/still so/);
    expect(before).toBeGreaterThan(0);
    await page.getByRole("button", { name: "Sheet", exact: true }).click();
    const waiting = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save the notebook" }).click();
    const saved = textOf(await (await waiting).path());
    expect(saved).toMatch(/\n## Actions agreed\n\n- \d{4}-\d\d-\d\d: Ask why gas was chosen\n$/);
    expect(saved.match(/^ {6}minuted \d{4}-\d\d-\d\d: \d+ of \d+$/gm)).toHaveLength(2);
  });
});
