import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { drop } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** Every day can be read in two ways; one technique is a unit's own word; one heading is guessed. */
const asking = `record,hospital no,eye,date of operation,procedure,gas,last seen
1,U1,R,03/04/2024,vitrectomy,SF6,05/06/2024
2,U2,L,04/05/2024,lasso band,none,06/07/2024
3,U3,R,05/06/2024,lasso band,none,07/08/2024
`;

async function openOwn(page: Page): Promise<void> {
  await drop(page, "asking.csv", asking);
  await page.locator("book-header .facts", { hasText: "asking.csv" }).waitFor();
  await page.getByRole("button", { name: "Cases", exact: true }).click();
  await page.locator("case-grid [role=rowheader]").first().waitFor();
}

/** The notebook as it is saved. */
async function savedNotebook(page: Page): Promise<string> {
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the notebook" }).click();
  return readFileSync(await (await download).path(), "utf8");
}

/** The texts of a column of the grid, as far as they are drawn. */
async function columnTexts(page: Page, label: string): Promise<readonly string[]> {
  const heading = page.locator("case-grid [role=columnheader]", { hasText: label }).first();
  const index = await heading.getAttribute("aria-colindex");
  const cells = page.locator(`case-grid [role=gridcell][aria-colindex="${index}"]`);
  return (await cells.allTextContents()).map((text) => text.trim());
}

describe("what only the reader can say", () => {
  it("is asked: which comes first in a date", async () => {
    const { page } = await open();
    await openOwn(page);
    const ask = page.getByRole("group", { name: "In “date of operation”, which comes first?" });
    await ask.getByRole("button", { name: "month first" }).click();
    await expect.poll(() => ask.count()).toBe(0);
    await expect
      .poll(() => columnTexts(page, "operation date"))
      .toEqual(["2024-03-04", "2024-04-05", "2024-05-06"]);
    expect(await savedNotebook(page)).toMatch(/month first/);
  });

  it("is said once of a value, and the next file needs nothing", async () => {
    const { page } = await open();
    await openOwn(page);
    await page
      .getByRole("combobox", { name: "“lasso band” in technique stands for" })
      .selectOption("scleral buckle");
    await page.locator("column-asks").getByRole("button", { name: "Keep" }).click();
    await expect
      .poll(() => columnTexts(page, "technique"))
      .toEqual(["vitrectomy", "scleral buckle", "scleral buckle"]);
    expect(await savedNotebook(page)).toContain("lasso band");
    await drop(page, "next.csv", asking.replaceAll("2024", "2025"));
    await page.locator("book-header .facts", { hasText: "next.csv" }).waitFor();
    await expect
      .poll(() => columnTexts(page, "technique"))
      .toEqual(["vitrectomy", "scleral buckle", "scleral buckle"]);
    expect(await page.getByRole("combobox", { name: "“lasso band” in technique" }).count()).toBe(0);
  });
});

describe("how headings were matched", () => {
  it("is changed by hand and remembered in the notebook", async () => {
    const { page } = await open();
    await openOwn(page);
    await page.getByRole("button", { name: "Change what “record” stands for" }).click();
    const choice = page.getByRole("combobox", { name: "“record” stands for" });
    await choice.selectOption({ label: "Leave it aside" });
    await page.locator("matched-headings").getByRole("button", { name: "Keep" }).click();
    await expect.poll(() => savedNotebook(page)).toMatch(/record: leave/);
    const undo = page.getByRole("button", { name: "Undo", exact: true });
    await undo.click();
    await expect.poll(() => savedNotebook(page)).not.toMatch(/record: leave/);
  });

  it("is confirmed at once, and then nothing is left to confirm", async () => {
    const { page } = await open();
    await openOwn(page);
    await page.getByRole("button", { name: "Confirm all of it" }).click();
    await page.getByText("All of it is kept in the notebook.").waitFor();
    const saved = await savedNotebook(page);
    for (const heading of ["hospital no", "date of operation", "procedure", "last seen"]) {
      expect(saved).toContain(heading);
    }
  });
});
