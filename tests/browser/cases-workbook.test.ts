import { describe, expect, it } from "vitest";
import { type Cell, workbookOf } from "../cases/workbook-of.ts";
import { dropBytes } from "./drop-bytes.ts";
import { demoCases, NodeSession } from "./node-session.ts";
import { sentences, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

const table: readonly (readonly Cell[])[] = demoCases
  .trimEnd()
  .split("\n")
  .map((line) => line.split(",").map((value) => (value === "" ? null : value)));

/** Words that no two rows share, so that the workbook stays long however it is packed. */
function longWorkbook(): Uint8Array {
  let seed = 7;
  const word = () => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed.toString(36);
  };
  const raw = (text: string): Cell => ({
    raw: `<c t="inlineStr"><is><t>${text}</t></is></c>`,
  });
  const rest = Array.from({ length: 6000 }, () => [
    raw(Array.from({ length: 20 }, word).join(" ")),
  ]);
  return workbookOf({ Lists: rest, Theatre: table });
}

describe("a workbook", () => {
  it("of several sheets asks which, and is read like the same table as CSV", async () => {
    const { page } = await open();
    const bytes = longWorkbook();
    expect(bytes.length).toBeGreaterThan(524_288);
    await dropBytes(page, "theatre.xlsx", bytes);
    const dialog = page.getByRole("dialog", { name: "Which sheet of theatre.xlsx" });
    const likeliest = dialog.getByRole("button", { name: "Theatre" });
    expect(await likeliest.textContent()).toContain("looks like a table of cases");
    await likeliest.click();
    await page.locator("book-header .facts", { hasText: "theatre.xlsx" }).waitFor();
    await settled(page);
    expect(await sentences(page)).toEqual(await new NodeSession().sentences());
  });

  it("of which no sheet is chosen changes nothing", async () => {
    const { page } = await open();
    await dropBytes(
      page,
      "two.xlsx",
      workbookOf({ One: table.slice(0, 9), Two: table.slice(0, 5) }),
    );
    const dialog = page.getByRole("dialog", { name: "Which sheet of two.xlsx" });
    await dialog.waitFor();
    await page.keyboard.press("Escape");
    await dialog.waitFor({ state: "hidden" });
    expect(await page.locator("book-header .facts").textContent()).toContain("repairs.csv");
  });

  it("of one sheet is opened by the button, at once", async () => {
    const { page } = await open();
    const buffer = Buffer.from(workbookOf({ Operations: table.slice(0, 21) }));
    const chooser = page.waitForEvent("filechooser");
    await page.getByRole("button", { name: "Open my cases" }).first().click();
    const mimeType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
    await (await chooser).setFiles({ name: "one.xlsx", mimeType, buffer });
    await page.locator("book-header .facts", { hasText: "one.xlsx" }).waitFor();
    expect(await page.locator("book-header .facts").textContent()).toContain("20 rows");
  });

  it("that is broken changes nothing, and the page says why", async () => {
    const { page } = await open();
    const whole = workbookOf({ Operations: table.slice(0, 21) });
    await dropBytes(page, "broken.xlsx", whole.slice(0, 2000));
    await page.locator("book-notices .notice").waitFor();
    expect(await page.locator("book-notices .notice").textContent()).toContain("broken.xlsx");
  });
});
