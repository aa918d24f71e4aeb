import { describe, expect, it } from "vitest";
import { drop, settled, textOf } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

describe("a meeting page about people", () => {
  it("carries the caution of comparing people openly, and breaks no day in two", async () => {
    const { page } = await open();
    const caution = page.locator("meeting-leaf footer .caution");
    await drop(page, "surgeon-review.md", textOf("notebooks/surgeon-review.md"));
    await page.locator("h1", { hasText: "surgeon E" }).waitFor();
    await settled(page);
    await page.getByRole("button", { name: "Meeting", exact: true }).click();
    await page.locator("meeting-leaf", { hasText: "1 of 12" }).waitFor();
    const brief = page.locator("meeting-page .brief p").locator("visible=true").first();
    await expect.poll(() => brief.textContent()).toContain("81 cases");
    expect(await caution.textContent()).toContain("no measure of competence by itself");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowRight");
    await expect.poll(() => brief.textContent()).toContain("still attached");
    expect(await caution.textContent()).not.toContain("no measure of competence");
    for (let at = 0; at < 6; at++) await page.keyboard.press("ArrowRight");
    await expect.poll(() => brief.textContent()).toContain("twice, last at operation 86");
    expect(await brief.locator(".whole").allTextContents()).toEqual(["2025-12-22"]);
  });
});
