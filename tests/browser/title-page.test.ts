import { describe, expect, it } from "vitest";
import { drop } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

const own = `patient,eye,operation_date,last_seen_date,status_last_seen,technique
A,right,2025-01-02,2025-12-01,attached,vitrectomy
B,left,2025-02-03,2025-12-01,attached,scleral buckle
`;

describe("the title page", () => {
  it("names no invented unit over a reader's own cases without saying so, and can be changed", async () => {
    const { page } = await open();
    const said = page.locator("book-tools .invented");
    await drop(page, "own.csv", own);
    await expect.poll(() => said.textContent()).toContain("still names an invented unit");

    const period = page.locator("book-title small");
    expect(await period.textContent()).toBe("operated from 2023-01-01 to 2025-12-31");
    await page.getByLabel("from", { exact: true }).fill("2024-01-01");
    await page.keyboard.press("Enter");
    await expect
      .poll(() => period.textContent())
      .toMatch(/; the sheet is set to 2024-01-01 to 2025/);

    await page.getByRole("button", { name: "Change", exact: true }).click();
    await page.getByLabel("Title of the notebook").fill("Repairs of 2025");
    await page.getByLabel("Unit", { exact: true }).fill("Unit N");
    await page.getByLabel("Period", { exact: true }).fill("");
    await page.getByLabel("Made by").fill("audit lead of unit N");
    await page.getByRole("button", { name: "Keep it" }).click();
    await expect.poll(() => page.locator("h1").textContent()).toBe("Repairs of 2025");
    expect(await said.count()).toBe(0);
    expect(await page.locator("book-title small").count()).toBe(0);

    await page.getByRole("button", { name: "Change", exact: true }).click();
    expect(await page.getByLabel("Unit", { exact: true }).inputValue()).toBe("Unit N");
    expect(await page.getByLabel("Made by").inputValue()).toBe("audit lead of unit N");
    await page.getByLabel("Unit", { exact: true }).fill("Unit M");
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => page.locator("h1").textContent()).toContain("Saltmarsh");
  });
});
