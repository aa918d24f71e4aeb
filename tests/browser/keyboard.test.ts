import { describe, expect, it } from "vitest";
import { cell, focused } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

describe("the keyboard alone", () => {
  it("walks the cells by arrow keys, enters the desk and comes back", async () => {
    const { page } = await open();
    await cell(page, "failure_means").focus();
    const walk = async (key: string) => {
      await page.keyboard.press(key);
      return (await focused(page)).split(",")[0];
    };
    expect(await walk("ArrowRight")).toBe("window");
    expect(await walk("ArrowDown")).toBe("standard_rate");
    expect(await walk("ArrowDown")).toBe("eyes");
    expect(await walk("ArrowDown")).toBe("how_often");
    expect(await walk("Home")).toBe("failure_means");
    expect(await walk("End")).toBe("rows_and_eyes");
    await page.keyboard.press("Enter");
    await expect.poll(() => focused(page)).toContain("Working of the cell");
    await page.keyboard.press("Escape");
    await expect.poll(() => focused(page)).toContain("rows_and_eyes");
  });

  it("reaches a cell by Tab, and a number in it by Tab again", async () => {
    const { page } = await open();
    await page.getByLabel("Find in names, workings and answers").focus();
    await page.keyboard.press("Tab");
    expect(await focused(page)).toContain("failure_means");
    await cell(page, "how_often").focus();
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await page.locator("eyes-behind tbody tr").first().waitFor();
  });

  it("turns the pages of the meeting", async () => {
    const { page } = await open();
    await page.getByRole("button", { name: "Meeting" }).click();
    const place = page.locator("meeting-leaf footer [aria-live]");
    expect(await place.textContent()).toMatch(/^1 of \d+$/);
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("PageDown");
    await expect.poll(() => place.textContent()).toMatch(/^3 of/);
    await page.keyboard.press("PageUp");
    await expect.poll(() => place.textContent()).toMatch(/^2 of/);
    expect(await page.locator("meeting-leaf .caution").textContent()).toContain(
      "For audit and learning; not advice for a patient",
    );
  });
});
