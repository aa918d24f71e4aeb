import { describe, expect, it } from "vitest";
import { drop, sentence, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

const cases = `case,patient,eye,operation_date,age,technique
0001,SM01,right,2024-03-05,61,vitrectomy
0002,SM02,left,2024-01-09,34,scleral buckle
0003,SM03,right,2024-02-11,,vitrectomy
`;

const notebook = `---
holdfast: 1
title: Ages
---

    by_age = count_by(cases, by: older)
`;

describe("a computed column", () => {
  it("is added with a working, stands in the grid and the sheet, and is taken out", async () => {
    const { page } = await open();
    await drop(page, "ages.md", notebook);
    await drop(page, "three.csv", cases);
    await page.locator("book-header .facts", { hasText: "three.csv" }).waitFor();
    await page.getByRole("button", { name: "Cases", exact: true }).click();
    const columns = page.locator("computed-columns");
    await columns.getByLabel("Name").fill("older");
    await columns.getByLabel("Working").fill("agee >= 60");
    await page.keyboard.press("Enter");
    await expect.poll(() => columns.getByRole("alert").textContent()).toMatch(/agee/);
    await columns.getByLabel("Working").fill("age >= 60");
    await page.keyboard.press("Enter");
    await expect
      .poll(() => columns.locator("code").allTextContents())
      .toEqual(["older = age >= 60"]);
    const heading = page.locator("case-grid").getByRole("columnheader", { name: "older" });
    await heading.scrollIntoViewIfNeeded();
    const at = await heading.getAttribute("aria-colindex");
    const values = page.locator(`case-grid [role=gridcell][aria-colindex="${at}"]`);
    await expect
      .poll(async () => (await values.allTextContents()).map((text) => text.trim()))
      .toEqual(["yes", "no", "–"]);
    await page.getByRole("button", { name: "Sheet", exact: true }).click();
    await settled(page);
    expect(await sentence(page, "by_age")).toMatch(/older/i);
    await page.keyboard.press("Control+z");
    await expect.poll(() => page.locator("sheet-cell cell-fault").count()).toBe(1);
    await page.keyboard.press("Control+y");
    await page.getByRole("button", { name: "Cases", exact: true }).click();
    await columns.getByRole("button", { name: "Take out older" }).click();
    await expect.poll(() => columns.locator("code").count()).toBe(0);
  });
});
