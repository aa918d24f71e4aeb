import { describe, expect, it } from "vitest";
import { demoCases, NodeSession } from "./node-session.ts";
import { drop, focused, sentences, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** A department's own file: the first 200 rows of the demo. */
const fewer = `${demoCases.split("\n").slice(0, 201).join("\n")}\n`;

describe("cases of one's own", () => {
  it("dropped on the page, recalculate everything; undo brings the demo back", async () => {
    const { page } = await open();
    const demo = await sentences(page);
    await drop(page, "mine.csv", fewer);
    await page.locator("book-header .facts", { hasText: "mine.csv" }).waitFor();
    await settled(page);
    expect(await sentences(page)).toEqual(await new NodeSession(fewer).sentences());
    const note = page.locator("book-tools .invented");
    expect(await note.textContent()).toBe(
      "Your cases; the title page still names an invented unit.",
    );
    await page.keyboard.press("Control+z");
    await page.locator("book-header .facts", { hasText: "repairs.csv" }).waitFor();
    await settled(page);
    expect(await sentences(page)).toEqual(demo);
    expect(await note.textContent()).toContain("Invented cases");
  });

  it("can be pasted as a table", async () => {
    const { page } = await open();
    await page.evaluate((text) => {
      const clipboardData = new DataTransfer();
      clipboardData.setData("text/plain", text);
      document.body.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true }));
    }, fewer);
    await page.locator("book-header .facts", { hasText: "pasted" }).waitFor();
    await settled(page);
    expect(await sentences(page)).toEqual(await new NodeSession(fewer).sentences());
  });

  it("that cannot be read change nothing, and the page says why", async () => {
    const { page } = await open();
    const before = await sentences(page);
    await drop(page, "empty.csv", "");
    const notice = page.locator("book-notices .notice");
    await notice.waitFor();
    expect(await notice.textContent()).toContain("empty.csv");
    expect(await sentences(page)).toEqual(before);
    await notice.getByRole("button").click();
    expect(await notice.count()).toBe(0);
  });
});

describe("the leaf of cases", () => {
  it("draws only the rows in sight, and reaches the last by keyboard", async () => {
    const { page } = await open();
    await page.getByRole("button", { name: "Cases", exact: true }).click();
    const grid = page.getByRole("grid");
    await grid.locator("[role=rowheader]").first().waitFor();
    const count = Number(await grid.getAttribute("aria-rowcount"));
    expect(await grid.locator("[role=row]").count()).toBeLessThan(60);
    await grid.locator("[tabindex='0']").focus();
    await page.keyboard.press("Control+End");
    await expect.poll(() => grid.locator(`[aria-rowindex="${count}"]`).count()).toBe(1);
    await page.keyboard.press("Home");
    const last = grid.locator(`[aria-rowindex="${count}"] [role=rowheader]`);
    // Its line stands there once the row is fetched.
    await expect.poll(() => last.textContent()).toMatch(/\d/);
    await expect.poll(() => focused(page)).toBe((await last.textContent())?.trim());
  });

  it("tells what became of every heading and every row", async () => {
    const { page } = await open();
    await page.getByRole("button", { name: "Cases", exact: true }).click();
    const { session } = new NodeSession();
    const reading = session.caseReading!;
    expect(await page.locator("matched-headings tbody tr").count()).toBe(reading.columns.length);
    const facts = (await page.locator("file-facts dd").allTextContents()).map((text) =>
      text.trim(),
    );
    expect(facts).toContain(String(reading.rowsRead));
    expect(facts).toContain(String(reading.leftOut.length));
    expect(await page.locator("left-out-rows li").count()).toBe(
      new Set(reading.leftOut.map(({ reason }) => reason)).size,
    );
  });
});
