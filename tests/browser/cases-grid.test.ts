import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { cell, drop, focused } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** Eight operations, one by a technique that nobody has met. */
const rows = [
  "case,patient,eye,date of operation,surgeon,age,technique,tamponade",
  "0001,SM01,right,2024-03-05,D,61,vitrectomy,C3F8",
  "0002,SM02,left,2024-01-09,A,34,scleral buckle,none",
  "0003,SM03,right,2024-02-11,A,47,vitrectomy,SF6",
  "0004,SM04,left,2024-05-21,C,70,band and tap,none",
  "0005,SM05,right,2024-04-02,B,45,pneumatic retinopexy,C3F8",
  "0006,SM06,left,2024-06-30,D,58,vitrectomy,SF6",
  "0007,SM07,right,2024-07-01,C,,pneumatic retinopexy,none",
  "0008,SM08,left,2024-08-19,A,66,pneumatic retinopexy,SF6",
];

async function openLeaf(): Promise<Page> {
  const { page } = await open();
  await drop(page, "eight.csv", `${rows.join("\n")}\n`);
  await page.locator("book-header .facts", { hasText: "eight.csv" }).waitFor();
  await page.getByRole("button", { name: "Cases", exact: true }).click();
  await page.locator("case-grid [role=rowheader]").first().waitFor();
  return page;
}

function heading(page: Page, label: string) {
  return page.locator("case-grid").getByRole("columnheader", { name: label, exact: true });
}

async function firstOf(page: Page, label: string, count = 3): Promise<readonly string[]> {
  const index = await heading(page, label).getAttribute("aria-colindex");
  const rows = Array.from({ length: count }, (_, i) =>
    page.locator(`case-grid [aria-rowindex="${i + 2}"] [aria-colindex="${index}"]`),
  );
  return Promise.all(rows.map(async (at) => ((await at.textContent()) ?? "").trim()));
}

function status(page: Page): Promise<string> {
  return page
    .locator("cases-leaf .under [role=status]")
    .textContent()
    .then((text) => (text ?? "").replace(/\s+/g, " ").trim());
}

/** What a copy or a paste at what has the keyboard puts into, or takes from, the clipboard. */
function clipboard(page: Page, type: "copy" | "paste", text = ""): Promise<string> {
  return page.evaluate(
    ([kind, given]) => {
      let element = document.activeElement;
      while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
      const clipboardData = new DataTransfer();
      if (kind === "paste") clipboardData.setData("text/plain", given);
      const options = { clipboardData, bubbles: true, composed: true, cancelable: true };
      element?.dispatchEvent(new ClipboardEvent(kind, options));
      return clipboardData.getData("text/plain");
    },
    [type, text] as const,
  );
}

describe("the rows", () => {
  it("are sorted by a heading: rising, falling, then as in the file", async () => {
    const page = await openLeaf();
    const own = await firstOf(page, "operation date");
    const date = heading(page, "operation date");
    await date.click();
    expect(await page.locator("[aria-sort=ascending]").count()).toBe(1);
    await page.keyboard.press("Enter");
    await expect.poll(() => firstOf(page, "operation date", 1)).not.toEqual(own.slice(0, 1));
    expect(await page.locator("[aria-sort=descending]").count()).toBe(1);
    const falling = await firstOf(page, "operation date", 3);
    expect(falling).toEqual([...falling].sort().reverse());
    await page.keyboard.press("Enter");
    await expect.poll(() => firstOf(page, "operation date")).toEqual(own);
  });

  it("are chosen by a condition, and a wrong one is underlined", async () => {
    const page = await openLeaf();
    const where = page.getByRole("textbox", { name: "Only rows where" });
    await where.fill('technique = "pneumatic retinopexy" and age < 50');
    await where.press("Enter");
    await expect
      .poll(() => status(page))
      .toMatch(/^1 of 8 rows; 1 row is not shown because it is missing/);
    expect(await page.getByRole("grid").getAttribute("aria-rowcount")).toBe("2");
    await where.fill("agee < 50");
    await where.press("Enter");
    await expect.poll(() => page.locator("rows-tools pre").count()).toBe(1);
    expect(await page.locator("rows-tools pre").textContent()).toContain("age");
    await where.fill("");
    await where.press("Enter");
    await expect.poll(() => status(page)).toMatch(/^8 rows/);
  });

  it("are searched, place after place", async () => {
    const page = await openLeaf();
    const find = page.getByRole("searchbox", { name: "Find" });
    await find.fill("SF6");
    await find.press("Enter");
    await expect.poll(() => status(page)).toMatch(/Found in line 4, tamponade/);
    await find.press("Enter");
    await expect.poll(() => status(page)).toMatch(/Found in line 7, tamponade/);
    await find.fill("nowhere to be found");
    await find.press("Enter");
    await expect.poll(() => status(page)).toContain("is in none of the rows and columns shown");
  });

  it("open from a number of the sheet", async () => {
    const { page } = await open();
    await cell(page, "how_often").locator(".number, button").first().waitFor();
    await cell(page, "how_often").getByRole("button").filter({ hasText: /^\d+$/ }).first().click();
    await page
      .locator("eyes-behind")
      .getByRole("button")
      .filter({ hasText: /rows|cases/i })
      .first()
      .click();
    await page.locator("case-grid [role=rowheader]").first().waitFor();
    expect(await page.locator("cases-leaf .behind").textContent()).toContain("The rows behind");
    await expect.poll(() => status(page)).toMatch(/^\d+ of \d+ rows/);
    await page.getByRole("button", { name: "Show all rows" }).click();
    await expect.poll(() => status(page)).toMatch(/^\d+ rows/);
  });
});

describe("the columns", () => {
  it("are hidden and shown again", async () => {
    const page = await openLeaf();
    await page.getByText(/^Columns \(/).click();
    await page.getByRole("checkbox", { name: "patient", exact: true }).uncheck();
    await expect.poll(() => heading(page, "patient").count()).toBe(0);
    await page.getByRole("button", { name: "Show all columns" }).click();
    await expect.poll(() => heading(page, "patient").count()).toBe(1);
  });

  it("of free text are shown only where they are asked for, in no sample either", async () => {
    const { page } = await open();
    const remarks = ["came by ferry", "left hospital late", "see letter", "wears lenses"];
    const rows = remarks.map((remark, i) => `${i + 1},U${i + 1},R,2024-02-0${i + 1},${remark}`);
    const text = `case,patient,eye,date of operation,remarks\n${rows.join("\n")}\n`;
    await drop(page, "remarks.csv", text);
    await page.locator("book-header .facts", { hasText: "remarks.csv" }).waitFor();
    await page.getByRole("button", { name: "Cases", exact: true }).click();
    await heading(page, "patient").waitFor();
    for (const remark of remarks) expect(await page.getByText(remark).count()).toBe(0);
    await page.getByText(/^Columns \(/).click();
    await page.getByRole("checkbox", { name: /^remarks/ }).check();
    await page.locator("case-grid").getByText("came by ferry").waitFor();
    await page.getByRole("button", { name: "Show all columns but free text" }).click();
    await expect.poll(() => page.getByText("came by ferry").count()).toBe(0);
  });

  it("are moved by keyboard, and set back as in the file", async () => {
    const page = await openLeaf();
    const labels = async () =>
      (await page.locator("case-grid [role=columnheader]").allTextContents())
        .slice(1, 4)
        .map((text) => text.trim());
    expect(await labels()).toEqual(["case", "patient", "eye"]);
    await page.locator("case-grid [tabindex='0']").first().focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Control+ArrowRight");
    await expect.poll(labels).toEqual(["patient", "case", "eye"]);
    expect(await focused(page)).toBe("case");
    expect(await status(page)).toContain("case is now column 2 of");
    await page.keyboard.press("Control+ArrowRight");
    await expect.poll(labels).toEqual(["patient", "eye", "case"]);
    expect(await firstOf(page, "case")).toEqual(["0001", "0002", "0003"]);
    await page.getByText(/^Columns \(/).click();
    await page.getByRole("button", { name: "Order as in the file" }).click();
    await expect.poll(labels).toEqual(["case", "patient", "eye"]);
  });
});

describe("a reader in a hurry", () => {
  it("moves a column by keys that come faster than they are drawn", async () => {
    const page = await openLeaf();
    await page.locator("case-grid [tabindex='0']").first().focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.down("Control");
    await Promise.all(Array.from({ length: 4 }, () => page.keyboard.press("ArrowRight")));
    await page.keyboard.up("Control");
    await expect.poll(() => heading(page, "case").getAttribute("aria-colindex")).toBe("6");
    expect(await focused(page)).toBe("case");
  });

  it("loses no key to the page where rows come and go", async () => {
    const { page } = await open();
    await page.getByRole("button", { name: "Cases", exact: true }).click();
    await page.locator('case-grid [data-place="1 1"]').click();
    await page.keyboard.down("Control");
    await page.keyboard.press("End");
    await page.keyboard.up("Control");
    await Promise.all(Array.from({ length: 30 }, () => page.keyboard.press("ArrowUp")));
    const last = Number(await page.getByRole("grid").getAttribute("aria-rowcount")) - 1;
    const place = () =>
      page.evaluate(() => {
        let element = document.activeElement;
        while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
        return element?.getAttribute("data-place")?.split(" ")[0];
      });
    await expect.poll(place).toBe(String(last - 30));
    await page.locator("case-grid .grid").evaluate((grid) => grid.scrollTo(0, 0));
    await page.locator('case-grid [data-place="1 0"]').waitFor();
    expect(await place()).toBe(String(last - 30));
    await page.keyboard.press("ArrowUp");
    await expect.poll(place).toBe(String(last - 31));
  });
});

describe("a range", () => {
  it("is copied as text that pastes into a table", async () => {
    const page = await openLeaf();
    await page.locator('case-grid [data-place="1 1"]').click();
    await page.keyboard.press("Shift+ArrowDown");
    await page.keyboard.press("Shift+ArrowRight");
    await page.keyboard.press("Shift+ArrowRight");
    expect(await clipboard(page, "copy")).toBe("0001\tP001\tright\n0002\tP002\tleft");
    expect(await status(page)).toContain("Copied 2 rows by 3 columns.");
  });

  it("is pasted as corrections, with one reason", async () => {
    const page = await openLeaf();
    await page.locator('case-grid [data-place="1 3"]').click();
    await clipboard(page, "paste", "left\nleft\nleft\n");
    const dialog = page.getByRole("dialog", { name: "Correct 2 values" });
    await dialog.getByRole("textbox", { name: "Why" }).fill("theatre book");
    await dialog.getByRole("button", { name: "Correct" }).click();
    await expect.poll(() => firstOf(page, "eye")).toEqual(["left", "left", "left"]);
    expect(await page.locator("correction-list tbody tr").count()).toBe(2);
  });
});

describe("a query", () => {
  it("leads to its value, also in rows that are sorted", async () => {
    const page = await openLeaf();
    await heading(page, "surgeon").click();
    const query = page.locator("problem-list li", { hasText: "technique" }).first();
    const line = /line (\d+)/.exec((await query.textContent()) ?? "")?.[1];
    await query.getByRole("button").first().click();
    await expect
      .poll(() => page.locator("case-grid .here").getAttribute("class"))
      .toContain("queried");
    const row = page.locator("case-grid [role=row]", { has: page.locator(".here") });
    expect((await row.locator("[role=rowheader]").textContent())?.trim()).toBe(line);
    await page.keyboard.press("Home");
    await expect.poll(() => page.locator("[aria-sort=ascending]").textContent()).toMatch(/surgeon/);
  });
});
