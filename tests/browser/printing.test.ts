import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { cell } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** Poppler reads what stands on each page; without it those tests are left out. */
const hasReader = spawnSync("pdftotext", ["-v"]).status === 0;

describe("printing", () => {
  it("draws every chart first, on the sheet and in the meeting", async () => {
    const { page } = await open();
    await page.evaluate(() => {
      const drawn = () => {
        const inside = (root: ParentNode): Element[] =>
          [...root.querySelectorAll("*")].flatMap((each) =>
            each.localName === "answer-chart"
              ? [each]
              : each.shadowRoot === null
                ? []
                : inside(each.shadowRoot),
          );
        return inside(document).map((each) => each.shadowRoot!.querySelector("svg") !== null);
      };
      const all = window as unknown as { printed: boolean[][] };
      all.printed = [];
      window.print = () => all.printed.push(drawn());
    });
    await page.getByRole("button", { name: "Print", exact: true }).click();
    const printed = () =>
      page.evaluate(() => (window as unknown as { printed: boolean[][] }).printed);
    await expect.poll(async () => (await printed()).length).toBe(1);
    await page.getByRole("button", { name: "Meeting", exact: true }).click();
    await page.keyboard.press("Control+p");
    await expect.poll(async () => (await printed()).length).toBe(2);
    for (const charts of await printed()) {
      expect(charts.length).toBeGreaterThan(2);
      expect(charts.every((isDrawn) => isDrawn)).toBe(true);
    }
  });

  it("leaves out what is for the screen, and breaks the meeting into pages", async () => {
    const { page } = await open();
    await page.emulateMedia({ media: "print" });
    for (const name of ["book-tools", "sheet-desk", "sheet-guide", "three-ways"]) {
      expect([name, await page.locator(name).isVisible()]).toEqual([name, false]);
    }
    expect(await page.locator("sheet-cell").first().isVisible()).toBe(true);
    await page.emulateMedia({ media: "screen" });
    await page.getByRole("button", { name: "Meeting", exact: true }).click();
    await page.locator("meeting-page[shown]").waitFor();
    await page.emulateMedia({ media: "print" });
    const pages = page.locator("meeting-page");
    const shown = await pages.evaluateAll((all) =>
      all.map((each) => each.getBoundingClientRect().height > 0),
    );
    expect(shown.length).toBeGreaterThan(3);
    expect(shown.every((isShown) => isShown)).toBe(true);
    expect(await page.locator("meeting-leaf footer").isVisible()).toBe(false);
  });

  it.skipIf(!hasReader).each(["A4", "Letter"])(
    "keeps answers whole and headings with what they head, on %s",
    async (format) => {
      const { page } = await open();
      await page.evaluate(() => {
        window.print = () => document.body.setAttribute("data-printed", "");
      });
      await page.getByRole("button", { name: "Print", exact: true }).click();
      await page.locator("body[data-printed]").waitFor({ state: "attached" });
      const file = join(mkdtempSync(join(tmpdir(), "holdfast-print-")), "sheet.pdf");
      await page.pdf({ path: file, format, printBackground: true });
      const pages = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" })
        .split("\f")
        .map((text) => text.split("\n").filter((line) => line.trim() !== ""))
        .filter((lines) => lines.length > 0);
      expect(pages.length).toBeGreaterThan(4);
      expect(pages.length).toBeLessThan(12);
      const headings = await page.locator("prose-block[heading]").allTextContents();
      expect(headings.length).toBeGreaterThan(2);
      for (const lines of pages) {
        expect(headings.map((text) => text.trim())).not.toContain(lines.at(-1)?.trim());
      }
      // The words in which each answer begins and ends stand on one page.
      for (const name of ["how_often", "by_risk", "when", "why", "differ", "rows_and_eyes"]) {
        const at = pages.findIndex((lines) => lines.some((line) => line.startsWith(name)));
        const used = (await cell(page, name).locator("cell-answer .small").textContent()) ?? "";
        const end = used.trim().slice(0, 14);
        expect(pages[at]?.join("\n"), name).toContain(end);
      }
    },
  );
});
