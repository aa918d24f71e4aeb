import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { largeCases } from "../page/large-cases.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

const size = { rows: 50_000, columns: 60, amberRow: 40_000 };
/** Rows and columns that are drawn at most: what is in sight, a few beside it, and the headings. */
const most = { rows: 60, columns: 24 };

let folder: string;
let path: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "holdfast-large-"));
  path = join(folder, "large.csv");
  writeFileSync(path, largeCases(size));
});
afterAll(() => rmSync(folder, { recursive: true }));

async function openLarge(): Promise<Page> {
  const { page } = await open();
  page.setDefaultTimeout(40_000);
  await page.getByRole("button", { name: "Cases", exact: true }).click();
  await page.locator("book-tools input[type=file]").setInputFiles(path);
  await page.locator("book-header .facts", { hasText: "large.csv" }).waitFor();
  await value(page, 1, 1).waitFor();
  return page;
}

function value(page: Page, row: number, column: number) {
  return page.locator(`case-grid [data-place="${row} ${column}"]`);
}

async function textAt(page: Page, row: number, column: number): Promise<string | undefined> {
  return (await value(page, row, column).textContent())?.trim();
}

function status(page: Page): Promise<string> {
  return page
    .locator("cases-leaf .under [role=status]")
    .textContent()
    .then((text) => (text ?? "").replace(/\s+/g, " ").trim());
}

/** How many rows, and values of a row, are drawn at most in any frame of scrolling to the end. */
function drawnWhileScrolling(
  page: Page,
): Promise<{ readonly rows: number; readonly columns: number }> {
  return page.locator("case-grid .grid").evaluate(async (grid) => {
    const drawn = { rows: 0, columns: 0 };
    const look = async () => {
      await new Promise(requestAnimationFrame);
      const rows = [...grid.querySelectorAll("[role=row]")];
      drawn.rows = Math.max(drawn.rows, rows.length);
      drawn.columns = Math.max(drawn.columns, ...rows.map(({ children }) => children.length));
    };
    const { scrollHeight, scrollWidth } = grid;
    for (let step = 0; step < 60; step++) {
      grid.scrollBy(0, step < 30 ? 120 : scrollHeight / 29);
      await look();
    }
    for (let step = 0; step < 20; step++) {
      grid.scrollBy(scrollWidth / 19, 0);
      await look();
    }
    return drawn;
  });
}

describe("50,000 rows of 60 columns", () => {
  it("are scrolled to the end, and only what is in sight is drawn", async () => {
    const page = await openLarge();
    const grid = page.getByRole("grid");
    expect(await grid.getAttribute("aria-rowcount")).toBe(String(size.rows + 1));
    expect(Number(await grid.getAttribute("aria-colcount"))).toBeGreaterThan(size.columns);
    const drawn = await drawnWhileScrolling(page);
    expect(drawn.rows).toBeGreaterThan(15);
    expect(drawn.rows).toBeLessThan(most.rows);
    expect(drawn.columns).toBeGreaterThan(5);
    expect(drawn.columns).toBeLessThan(most.columns);
    await expect.poll(() => textAt(page, size.rows, 0)).toBe(String(size.rows + 1));
    await expect.poll(() => textAt(page, size.rows, size.columns)).toBe("m54");
  });

  it("are sorted, chosen and searched", async () => {
    const page = await openLarge();
    const heading = page.locator("case-grid").getByRole("columnheader", { name: /^case/ });
    await heading.click();
    await page.keyboard.press("Enter");
    await expect.poll(() => textAt(page, 1, 1)).toBe(String(size.rows));
    const find = page.getByRole("searchbox", { name: "Find" });
    await find.fill("AMBER");
    await find.press("Enter");
    await expect.poll(() => status(page)).toContain(`Found in line ${size.amberRow + 1}, mark`);
    const where = page.getByRole("textbox", { name: "Only rows where" });
    await where.fill('technique = "scleral buckle"');
    await where.press("Enter");
    await expect.poll(() => status(page)).toMatch(/^16,666 of 50,000 rows/);
    expect(await page.getByRole("grid").getAttribute("aria-rowcount")).toBe("16667");
    await find.press("Enter");
    await expect.poll(() => status(page)).toContain("is in none of the rows and columns shown");
  });

  it("are copied whole", async () => {
    const page = await openLarge();
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await value(page, 1, 1).click();
    await page.keyboard.press("Control+Shift+End");
    await expect.poll(() => textAt(page, size.rows, 0)).toBe(String(size.rows + 1));
    await page.keyboard.press("Control+c");
    await expect.poll(() => status(page)).toMatch(/Copied 50,000 rows by \d+ columns/);
    const copied = await page.evaluate(async () => {
      const lines = (await navigator.clipboard.readText()).split("\n");
      return [lines.length, lines[0]?.split("\t")[0], lines.at(-1)?.split("\t")[0]];
    });
    expect(copied).toEqual([size.rows, "1", String(size.rows)]);
  });

  it("are copied at a second press where the browser lets the page write only then", async () => {
    const page = await openLarge();
    await value(page, 1, 1).click();
    await page.keyboard.press("Control+Shift+End");
    await expect.poll(() => textAt(page, size.rows, 0)).toBe(String(size.rows + 1));
    await page.evaluate(() => {
      navigator.clipboard.writeText = () => Promise.reject(new DOMException("", "NotAllowedError"));
    });
    await page.keyboard.press("Control+c");
    await expect.poll(() => status(page)).toContain("copy once more");
    await page.keyboard.press("Control+c");
    await expect.poll(() => status(page)).toMatch(/Copied 50,000 rows by \d+ columns/);
  });

  it("are pasted over, far below what was ever in sight", async () => {
    const page = await openLarge();
    await value(page, 1, 3).click();
    await page.keyboard.press("Control+Shift+End");
    await expect.poll(() => textAt(page, size.rows, 0)).toBe(String(size.rows + 1));
    await page.locator("case-grid .grid").evaluate((grid) => {
      const clipboardData = new DataTransfer();
      clipboardData.setData("text/plain", "left\n".repeat(400));
      const options = { clipboardData, bubbles: true, composed: true, cancelable: true };
      grid.dispatchEvent(new ClipboardEvent("paste", options));
    });
    await page.getByRole("dialog", { name: "Correct 200 values" }).waitFor();
  });
});
