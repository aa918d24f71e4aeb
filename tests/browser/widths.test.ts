import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { cell, focused, sentences, textOf } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

const columns = (page: Page) => page.locator("cell-tools .columns").textContent();

async function width(page: Page, name: string): Promise<number> {
  return (await cell(page, name).boundingBox())?.width ?? 0;
}

async function saved(page: Page): Promise<string> {
  const waiting = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the notebook" }).click();
  return textOf(await (await waiting).path());
}

describe("the width of a cell", () => {
  it("is changed by keyboard in columns of twelve, told in words, and undone by name", async () => {
    const { page } = await open();
    const said = await sentences(page);
    await cell(page, "when").focus();
    const before = [await width(page, "when"), await width(page, "why")] as const;
    await expect.poll(() => columns(page)).toBe("6 of 12");
    await page.keyboard.press("Alt+Shift+ArrowRight");
    await expect.poll(() => columns(page)).toBe("7 of 12");
    const column = (before[0] + before[1]) / 12;
    await expect.poll(() => width(page, "when")).toBeGreaterThan(before[0] + column / 2);
    expect(await width(page, "why")).toBeLessThan(before[1] - column / 2);
    expect(await focused(page)).toContain("when");
    const told = page.locator("sheet-leaf .sheet > [role=status]");
    expect(await told.textContent()).toBe("when takes 7 of 12 columns");
    const lines = (await saved(page)).split("\n");
    expect(lines).toContain("      across 7 of 12");
    expect(lines).toContain("      across 5 of 12");
    expect(await sentences(page)).toEqual(said);
    const undo = page.getByRole("button", { name: "Undo", exact: true });
    expect(await undo.getAttribute("title")).toBe("Undo: resize when (Ctrl+Z)");
    await undo.click();
    await expect.poll(() => width(page, "when")).toBeCloseTo(before[0], 0);
  });

  it("is changed by buttons of the desk, and left to the row again", async () => {
    const { page } = await open();
    await cell(page, "eyes").focus();
    await page.getByRole("button", { name: /^Make eyes narrower/ }).click();
    await page.getByRole("button", { name: /^Make eyes narrower/ }).click();
    await expect.poll(() => columns(page)).toBe("10 of 12");
    await page.getByRole("button", { name: "As it comes" }).click();
    await expect.poll(() => columns(page)).toBe("12 of 12");
    expect(await saved(page)).not.toContain("across");
  });

  it("goes with a copy, and both with one undo", async () => {
    const { page } = await open();
    await cell(page, "eyes").focus();
    await page.keyboard.press("Alt+Shift+ArrowLeft");
    await expect.poll(() => columns(page)).toBe("11 of 12");
    await page.getByRole("button", { name: "Copy the cell" }).click();
    await cell(page, "eyes_2").waitFor();
    const widths = async () => (await saved(page)).match(/across \d+ of 12/g);
    expect(await widths()).toEqual(["across 11 of 12", "across 11 of 12"]);
    await page.getByRole("button", { name: "Undo", exact: true }).click();
    await expect.poll(() => cell(page, "eyes_2").count()).toBe(0);
    expect(await widths()).toEqual(["across 11 of 12"]);
  });

  it("follows the pointer at its edge", async () => {
    const { page } = await open();
    await cell(page, "when").scrollIntoViewIfNeeded();
    await cell(page, "when").locator("answer-chart svg").waitFor();
    const box = (await cell(page, "when").boundingBox())!;
    const row = box.width + (await width(page, "why"));
    // Below the line that stays over the sheet, wherever the cell was scrolled to.
    const [x, y] = [box.x + box.width - 4, Math.max(box.y, 180) + 40];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + row / 6, y, { steps: 4 });
    await expect.poll(() => width(page, "when")).toBeGreaterThan(box.width + row / 12);
    await page.keyboard.press("Escape");
    await expect.poll(() => width(page, "when")).toBeCloseTo(box.width, 0);
    await page.mouse.up();
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + row / 6, y, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => columns(page)).toBe("8 of 12");
  });
});
