import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { findings } from "./axe-findings.ts";
import { cell, drop, focused, settled, textOf } from "./opened-page.ts";
import { projectPath } from "./project-path.ts";
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

/**
 * Every text of the book on each page of the meeting in turn, its head, foot and page list among
 * them, through shadow trees and drawings: what is seen, what is a tooltip, what is only heard.
 */
async function textsOfPages(page: Page): Promise<string[]> {
  await page.locator("meeting-leaf .meeting").focus();
  await page.keyboard.press("Home");
  const pages = Number(/of (\d+)$/.exec((await place(page).textContent()) ?? "")?.[1]);
  const texts: string[] = [];
  for (let at = 1; at <= pages; at++) {
    const shown = page.locator("meeting-page[shown]");
    const isDrawn = async () =>
      (await shown.locator("answer-chart").count()) ===
      (await shown.locator("answer-chart svg").count());
    await expect.poll(isDrawn).toBe(true);
    texts.push(await page.title(), ...(await page.locator("holdfast-book").evaluate(textsIn)));
    await page.keyboard.press("PageDown");
    const next = Math.min(at + 1, pages);
    await expect.poll(() => place(page).textContent()).toMatch(new RegExp(`^${next} of`));
  }
  return texts;
}

function textsIn(root: Element): string[] {
  const texts: string[] = [];
  const visit = (node: Node): void => {
    if (node instanceof Text && node.data.trim() !== "") texts.push(node.data.trim());
    if (node instanceof HTMLStyleElement) return;
    if (node instanceof Element) {
      for (const name of ["title", "aria-label"]) {
        const told = node.getAttribute(name) ?? "";
        if (told !== "") texts.push(told);
      }
      if (node.shadowRoot !== null) visit(node.shadowRoot);
    }
    for (const child of node.childNodes) visit(child);
  };
  visit(root);
  return texts;
}

/** A surgeon's or trainee's code, T1 or a single letter, that is no article, grade or statistic. */
function hasCode(text: string): boolean {
  if (text.includes("(B or the full stop)")) return false;
  const rest = text.replace(/(^|[.:;!?] )A(?= [a-z])/g, "$1").replace(/\b(grade|PVR) [A-D]\b/g, "");
  return /(?<![\p{L}\p{N}_])([A-F]|T[1-9])(?![\p{L}\p{N}_-])/u.test(rest);
}

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

  it.each(["surgeon-review.md", "trainee-benchmarking.md", "yearly-audit.md"])(
    "shows nobody's code on any page of %s, in text, title, chart, list or notes",
    async (name) => {
      const { page } = await open();
      const text = readFileSync(projectPath(`notebooks/${name}`), "utf8");
      await drop(page, name, text);
      const title = /^title: (.*)$/m.exec(text)?.[1] ?? "";
      await page.locator("book-header h1", { hasText: title }).waitFor();
      await settled(page);
      await page.getByRole("button", { name: "Meeting", exact: true }).click();
      await page.locator("meeting-page[shown]").waitFor();
      await page.getByRole("button", { name: "Pages", exact: true }).click();
      const texts = await textsOfPages(page);
      expect(texts.length).toBeGreaterThan(50);
      expect(texts.filter(hasCode)).toEqual([]);
      await page.getByRole("button", { name: "Notes", exact: true }).click();
      expect((await textsOfPages(page)).filter(hasCode)).toEqual([]);
      await page.getByRole("button", { name: "Codes of people" }).click();
      const told = (await textsOfPages(page)).filter(hasCode);
      expect(told.includes(title)).toBe(hasCode(title));
      expect(told.length).toBeGreaterThan(name === "yearly-audit.md" ? 0 : 10);
    },
    90_000,
  );

  it("hides them in what was agreed, minuted and is offered to be minuted", async () => {
    const own = withPeople.replace(
      "## Who operates",
      "## Surgeon B and the others\n\nAsk T1 first.",
    );
    const minuted = `${own}      minuted 2026-04-14: B, 1 of 99\n\n## Actions agreed\n\n- 2026-04-14: T1 shows B the lists\n`;
    const page = await meeting(minuted);
    for (const aside of ["Pages", "Notes"]) {
      await page.getByRole("button", { name: aside, exact: true }).click();
      const texts = await textsOfPages(page);
      expect(texts.filter(hasCode)).toEqual([]);
      expect(texts.some((text) => /person \d+ shows person \d+ the lists/.test(text))).toBe(true);
    }
    await page.keyboard.press("End");
    await page.getByRole("button", { name: /^Change the action/ }).click();
    const field = page.getByLabel("The action as it is to read");
    const written = await field.inputValue();
    expect(written).toMatch(/person \d+ shows person \d+ the lists/);
    await field.fill(`${written} again`);
    await page.getByRole("button", { name: "Keep the change" }).click();
    await page.getByText(/the lists again$/).waitFor();
    expect(await page.getByTitle("Title of the notebook").count()).toBe(0);
    await page.getByRole("button", { name: "Codes of people" }).click();
    const shown = (await textsOfPages(page)).filter(hasCode);
    expect(shown.some((text) => text.includes("T1 shows B the lists again"))).toBe(true);
    expect(shown.some((text) => text.includes("Ask T1 first."))).toBe(true);
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
    const title = await page.locator("meeting-page[shown] .keep").getAttribute("title");
    const told = /“(.+)”/.exec(title ?? "")?.[1] ?? "no title";
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
    const minuted = saved.match(/^ {6}minuted \d{4}-\d\d-\d\d: .+$/gm) ?? [];
    // What the demo was minuted with, and what was told now.
    expect(minuted).toHaveLength(before + 1);
    expect(minuted.some((line) => line.slice(26).startsWith(`${told} [`))).toBe(true);
  });

  it("keeps what, by whom and by when, and lets it be changed, removed and had back", async () => {
    const page = await meeting();
    await page.keyboard.press("End");
    await page.getByLabel("What is to be done").fill("Ask why gas was chosen");
    await page.getByLabel("By whom (role)").fill("audit lead");
    await page.getByLabel("By when").fill("2027-01-31");
    await page.getByRole("button", { name: "Agree", exact: true }).click();
    const items = page.locator("meeting-actions prose-block li");
    const agreed = /: Ask why gas was chosen; audit lead; by 2027-01-31$/;
    await expect.poll(() => items.allTextContents()).toEqual([expect.stringMatching(agreed)]);
    await page.getByRole("button", { name: "Change the action" }).click();
    const as = page.getByLabel("The action as it is to read");
    await as.fill((await as.inputValue()).replace("audit lead", "trainees"));
    await as.press("Enter");
    await expect
      .poll(() => items.allTextContents())
      .toEqual([expect.stringMatching(/; trainees; by 2027-01-31$/)]);
    expect(await findings(page)).toEqual([]);
    await page.getByRole("button", { name: "Remove the action" }).click();
    await page.getByText("Nothing was agreed yet.").waitFor();
    await page.locator("meeting-leaf .meeting").focus();
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    await expect.poll(() => items.allTextContents()).toEqual([expect.stringMatching(agreed)]);
  });

  it("counts the time of a page beside what is planned, and that of all", async () => {
    const timed = withPeople.replace("## Who operates", "## Who operates (5 minutes)");
    const page = await meeting(timed);
    const clock = page.locator("meeting-clock span");
    await expect
      .poll(() => clock.textContent())
      .toMatch(/(?!0:00)\d:\d\d here, 5:00 planned · \d:\d\d in all/);
    await page.keyboard.press("End");
    await expect.poll(() => clock.textContent()).toMatch(/^\s*0:0\d here · (?!0:00)\d:\d\d in all/);
  });
});
