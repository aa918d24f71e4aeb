import { readdirSync, readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { meetingStage } from "./meeting-stage.ts";
import { drop, settled } from "./opened-page.ts";
import { projectPath } from "./project-path.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** Notebooks that ask of other cases than those in the page. */
const ofOtherCases = ["retinopathy.md", "pooled.md"];
const notebooks = readdirSync(projectPath("notebooks")).filter(
  (name) => name.endsWith(".md") && !ofOtherCases.includes(name),
);

const place = (page: Page) => page.locator("meeting-leaf footer [aria-live]");

async function meetingOf(
  name: string,
  window: { readonly width?: number; readonly height?: number } = {},
): Promise<{ readonly page: Page; readonly pages: number }> {
  const { page } = await open(window);
  const text = readFileSync(projectPath(`notebooks/${name}`), "utf8");
  await drop(page, name, text);
  const title = /^title: (.*)$/m.exec(text)?.[1] ?? "";
  await page.locator("book-header h1", { hasText: title }).waitFor();
  await settled(page);
  await page.getByRole("button", { name: "Meeting", exact: true }).click();
  await page.locator("meeting-page[shown]").waitFor();
  const pages = Number(/of (\d+)$/.exec((await place(page).textContent()) ?? "")?.[1]);
  return { page, pages };
}

describe("a page of the meeting on a window of 1440 by 900", () => {
  it.each(notebooks)(
    "is seen whole, and nothing on it is smaller than 20 pixels: %s",
    async (name) => {
      const { page, pages } = await meetingOf(name);
      expect(pages).toBeGreaterThan(3);
      for (let at = 1; at <= pages; at++) {
        await expect.poll(() => place(page).textContent()).toBe(`${at} of ${pages}`);
        const { over, overStage, smallest } = await meetingStage(page);
        expect({ at, over, overStage }).toEqual({ at, over: 0, overStage: 0 });
        expect(smallest.pixels, `page ${at}: “${smallest.text}”`).toBeGreaterThanOrEqual(20);
        await page.keyboard.press("PageDown");
      }
    },
    120_000,
  );
});

describe("a page of the meeting on a window of 1024 by 768", () => {
  it("is seen whole, with smaller text in its chart where it must be", async () => {
    const { page, pages } = await meetingOf("demo.md", { width: 1024, height: 768 });
    for (let at = 1; at <= pages; at++) {
      await expect.poll(() => place(page).textContent()).toBe(`${at} of ${pages}`);
      const { over, overStage, smallest } = await meetingStage(page);
      expect({ at, over, overStage }).toEqual({ at, over: 0, overStage: 0 });
      expect(smallest.pixels, `page ${at}: “${smallest.text}”`).toBeGreaterThanOrEqual(13.5);
      await page.keyboard.press("PageDown");
    }
  }, 120_000);
});

describe("what a page of the meeting has no room for", () => {
  it("is counted, and its cautions are one line that opens and is folded by Escape", async () => {
    const { page } = await meetingOf("buckle-failures.md");
    for (let at = 1; at < 5; at++) await page.keyboard.press("PageDown");
    const shown = page.locator("meeting-page[shown]");
    const left = shown.locator("meeting-table > p, meeting-table p");
    await expect.poll(() => left.textContent()).toMatch(/^\d+ more rows? on the sheet/);
    const unshown = Number(/^\d+/.exec((await left.textContent()) ?? "")?.[0]);
    const rows = await shown.locator("meeting-table tbody tr").count();
    expect(`All ${rows + unshown} eyes are shown.`).toBe(
      await shown.locator(".brief p").textContent(),
    );
    const summary = shown.locator("summary", { hasText: "1 caution" });
    const caution = shown.locator(".opened .cautions li");
    expect(await caution.isVisible()).toBe(false);
    await summary.click();
    await expect.poll(() => caution.isVisible()).toBe(true);
    expect(await caution.textContent()).toContain("left out");
    await page.keyboard.press("Escape");
    await expect.poll(() => caution.isVisible()).toBe(false);
    expect(await summary.evaluate((at) => at.matches(":focus"))).toBe(true);
  });
});
