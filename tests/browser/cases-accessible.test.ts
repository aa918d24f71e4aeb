import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { workbookOf } from "../cases/workbook-of.ts";
import { findings } from "./axe-findings.ts";
import { dropBytes } from "./drop-bytes.ts";
import { drop } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** Something of everything that is asked or queried: dates, a word of the unit's own, a guess. */
const asking = `record,hospital no,eye,date of operation,procedure,gas,last seen,age,remarks
1,U1,R,03/04/2024,vitrectomy,SF6,05/06/2024,61,left late
2,U2,L,04/05/2024,lasso band,none,06/07/2024,160,none
3,U3,R,05/06/2024,lasso band,none,07/08/2024,44,see letter
`;

const sizes = { wide: [1440, 900], tablet: [1024, 768] } as const;

async function onLeaf(size: keyof typeof sizes = "wide"): Promise<Page> {
  const [width, height] = sizes[size];
  const { page } = await open({ width, height });
  await drop(page, "asking.csv", asking);
  await page.locator("book-header .facts", { hasText: "asking.csv" }).waitFor();
  await page.getByRole("button", { name: "Cases", exact: true }).click();
  await page.locator("case-grid .queried").first().waitFor();
  return page;
}

async function keepUnder(page: Page, passphrase: string): Promise<void> {
  const keeping = page.locator("keep-cases");
  await keeping.getByLabel("Passphrase").fill(passphrase);
  await keeping.getByRole("button", { name: "Keep on this device" }).click();
  await keeping.getByText("They are encrypted").waitFor();
}

async function correctEye(page: Page): Promise<void> {
  const dialog = page.getByRole("dialog", { name: "Correct a value" });
  await dialog.getByRole("combobox", { name: "Read it as" }).fill("left");
  await dialog.getByRole("textbox", { name: "Why" }).fill("drawing");
  await page.keyboard.press("Enter");
  await page.locator("correction-list tbody tr").first().waitFor();
}

async function pasteAtFocus(page: Page, text: string): Promise<void> {
  await page.evaluate((given) => {
    let element = document.activeElement;
    while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
    const clipboardData = new DataTransfer();
    clipboardData.setData("text/plain", given);
    const options = { clipboardData, bubbles: true, composed: true, cancelable: true };
    element?.dispatchEvent(new ClipboardEvent("paste", options));
  }, text);
}

/** What axe finds in a light room and in a darkened one, whatever dialog is open. */
async function inBothRooms(page: Page): Promise<readonly string[]> {
  const found: string[] = [];
  for (const dark of [true, false]) {
    await page.evaluate((darkened) => {
      const detail = { act: "darken", dark: darkened };
      document.querySelector("holdfast-book")?.dispatchEvent(new CustomEvent("act", { detail }));
    }, dark);
    await page.locator(`html[data-room=${dark ? "dark" : "light"}]`).waitFor();
    found.push(...(await findings(page)));
  }
  return found;
}

describe("axe-core finds nothing in a light room and in a darkened one", () => {
  it.each(["wide", "tablet"] as const)("on the leaf with asks and queries, %s", async (size) => {
    const page = await onLeaf(size);
    await page.locator("column-asks").waitFor();
    expect(await page.locator("problem-list li").count()).toBeGreaterThan(0);
    expect(await inBothRooms(page)).toEqual([]);
  });

  it("where a value is corrected, and in the list of corrections", async () => {
    const page = await onLeaf();
    await page.locator('case-grid [data-place="1 3"]').click();
    await page.keyboard.press("Enter");
    await page.getByRole("dialog", { name: "Correct a value" }).waitFor();
    expect(await inBothRooms(page)).toEqual([]);
    await correctEye(page);
    await page.locator("case-grid .corrected").first().waitFor();
    expect(await inBothRooms(page)).toEqual([]);
  });

  it("where values were pasted, and a range is marked", async () => {
    const page = await onLeaf();
    await page.locator('case-grid [data-place="1 3"]').click();
    await page.keyboard.press("Shift+ArrowDown");
    await pasteAtFocus(page, "left\nright\n");
    await page.getByRole("dialog", { name: "Correct 2 values" }).waitFor();
    expect(await inBothRooms(page)).toEqual([]);
    await page.keyboard.press("Escape");
    await expect.poll(() => page.locator("case-grid [aria-selected=true]").count()).toBe(2);
    expect(await inBothRooms(page)).toEqual([]);
  });

  it("where the sheet of a workbook is chosen", async () => {
    const { page } = await open();
    const table = asking.split("\n").map((line) => line.split(","));
    const bytes = workbookOf({ Lists: [["a"], ["b"]], Theatre: table });
    await dropBytes(page, "theatre.xlsx", bytes);
    await page.getByRole("dialog", { name: "Which sheet of theatre.xlsx" }).waitFor();
    expect(await inBothRooms(page)).toEqual([]);
  });

  it("where headings are matched by hand", async () => {
    const page = await onLeaf();
    await page.getByRole("button", { name: "Change what “record” stands for" }).click();
    await page.getByRole("combobox", { name: "“record” stands for" }).waitFor();
    expect(await inBothRooms(page)).toEqual([]);
  });

  it("where columns are chosen, a condition is wrong, and one that is computed is refused", async () => {
    const page = await onLeaf();
    await page.getByText(/^Columns \(/).click();
    const where = page.getByRole("textbox", { name: "Only rows where" });
    await where.fill("agee < 50");
    await where.press("Enter");
    await page.locator("rows-tools pre").waitFor();
    const columns = page.locator("computed-columns");
    await columns.getByLabel("Name").fill("older");
    await columns.getByLabel("Working").fill("agee >= 60");
    await page.keyboard.press("Enter");
    await expect.poll(() => columns.getByRole("alert").textContent()).toMatch(/agee/);
    expect(await inBothRooms(page)).toEqual([]);
    await columns.getByLabel("Working").fill("age >= 60");
    await page.keyboard.press("Enter");
    await columns.locator("code").waitFor();
    expect(await inBothRooms(page)).toEqual([]);
  });

  it("where patients have codes by a key", async () => {
    const page = await onLeaf();
    await page.getByRole("button", { name: "Make a key and save it" }).click();
    await page.getByText("Codes are made with your key").waitFor();
    expect(await inBothRooms(page)).toEqual([]);
  });

  it("where a passphrase is given, and where it is asked for", async () => {
    const page = await onLeaf();
    await page.locator("keep-cases").getByLabel("Passphrase").fill("four lamps over water");
    expect(await inBothRooms(page)).toEqual([]);
    await keepUnder(page, "four lamps over water");
    expect(await inBothRooms(page)).toEqual([]);
    await page.reload();
    await page.getByText("Cases are kept on this device under a passphrase").waitFor();
    await page.locator("keep-cases").getByLabel("Passphrase").fill("another one altogether");
    await page.keyboard.press("Enter");
    await page.getByText("This is not the passphrase").waitFor();
    expect(await inBothRooms(page)).toEqual([]);
  });
});
