import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { goTo, held, holder, press, tabBackTo, tabTo } from "./by-keyboard.ts";
import { sentence, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

const asking = `record,hospital no,eye,date of operation,procedure,gas,last seen,retina
1,U1,R,03/14/2024,vitrectomy,SF6,05/16/2025,attached
2,U2,L,04/15/2024,lasso band,none,06/17/2025,attached
3,U3,R,05/16/2024,lasso band,none,07/18/2025,detached
`;

async function openByKeyboard(page: Page): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await press(page, "Tab");
  await tabTo(page, /^Open my cases/);
  await page.keyboard.press("Enter");
  const file = { name: "asking.csv", mimeType: "text/csv", buffer: Buffer.from(asking) };
  await (await chooser).setFiles(file);
  await page.locator("book-header .facts", { hasText: "asking.csv" }).waitFor();
  await settled(page);
  await held(page);
}

describe("the keyboard alone", () => {
  it("opens a file, confirms it, corrects a value, undoes that and reads the sheet", async () => {
    const { page } = await open();
    await openByKeyboard(page);
    await tabBackTo(page, /^Cases$/);
    await press(page, "Enter");
    await page.locator("case-grid [role=rowheader]").first().waitFor();

    await tabTo(page, /^Confirm all of it$/);
    await press(page, "Enter");
    await page.getByText("All of it is kept in the notebook.").waitFor();
    await held(page);

    await tabBackTo(page, /^line$/i);
    await press(page, "ArrowDown", "ArrowRight", "ArrowRight", "ArrowRight");
    expect(await holder(page)).toBe("right");
    await press(page, "Enter");
    await page.getByRole("dialog", { name: "Correct a value" }).waitFor();
    await press(page, "Control+a");
    await page.keyboard.type("left");
    await press(page, "Tab");
    await page.keyboard.type("the drawing shows the left eye");
    await press(page, "Enter");
    await page.locator("correction-list tbody tr").waitFor();
    await expect.poll(() => holder(page)).toBe("left");
    await held(page);

    await press(page, "Control+z");
    await expect.poll(() => page.locator("correction-list tbody tr").count()).toBe(0);
    await expect.poll(() => holder(page)).toBe("right");
    await held(page);

    await tabBackTo(page, /^Sheet$/);
    await press(page, "Enter");
    await settled(page);
    await tabTo(page, /^failure_means, /);
    await goTo(page, /^how_often, /, "ArrowDown");
    expect(await sentence(page, "how_often")).toContain("3");
  });

  it("keeps its place where a control goes away with what it did", async () => {
    const { page } = await open();
    await openByKeyboard(page);
    await tabBackTo(page, /^Cases$/);
    await press(page, "Enter");
    await page.locator("case-grid [role=rowheader]").first().waitFor();

    await tabTo(page, /^Go there$/);
    await press(page, "Enter");
    expect(await holder(page)).toBe("What only you can say");
    await tabTo(page, /^“lasso band” in technique stands for$/);
    await press(page, "ArrowDown");
    await tabTo(page, /^Keep$/);
    await press(page, "Enter");
    await expect.poll(() => page.locator("column-asks").count()).toBe(0);
    await held(page);

    await tabTo(page, /^Change what “record” stands for$/);
    await press(page, "Enter");
    expect(await holder(page)).toBe("“record” stands for");
    await press(page, "Tab", "Enter");
    await expect.poll(() => page.locator("matched-headings form").count()).toBe(0);
    await held(page);

    await tabBackTo(page, /^Only rows where$/);
    await page.keyboard.type('eye = "left"');
    await press(page, "Enter");
    await tabTo(page, /^Show all rows$/);
    await press(page, "Enter");
    await expect.poll(() => page.getByRole("button", { name: "Show all rows" }).count()).toBe(0);
    await held(page);

    await tabTo(page, /^Keep on this device$/);
    await press(page, "Enter");
    await tabTo(page, /^Erase what is kept$/);
    await press(page, "Enter");
    await page.locator("keep-cases").getByText("in memory alone").waitFor();
    await held(page);
  });
});
