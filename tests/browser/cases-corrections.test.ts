import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { demoCases } from "./node-session.ts";
import { drop, dropAll, sentence, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

const few = `${demoCases.split("\n").slice(0, 21).join("\n")}\n`;

async function openFew(): Promise<Page> {
  const { page } = await open();
  await drop(page, "few.csv", few);
  await page.locator("book-header .facts", { hasText: "few.csv" }).waitFor();
  await page.getByRole("button", { name: "Cases", exact: true }).click();
  await page.locator("case-grid [role=rowheader]").first().waitFor();
  return page;
}

/** Corrects the eye of the first row by keyboard. */
async function correctEye(page: Page): Promise<void> {
  await page.locator('case-grid [data-place="1 3"]').click();
  await page.keyboard.press("Enter");
  const dialog = page.getByRole("dialog", { name: "Correct a value" });
  await dialog.getByRole("combobox", { name: "Read it as" }).fill("left");
  await dialog.getByRole("textbox", { name: "Why" }).fill("drawing shows the left eye");
  await page.keyboard.press("Enter");
  await page.locator("correction-list tbody tr").waitFor();
}

const list = (page: Page) => page.locator("correction-list tbody tr");

async function savedCorrections(page: Page): Promise<string> {
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the corrections" }).click();
  return readFileSync(await (await download).path(), "utf8");
}

async function openCorrections(page: Page, text: string): Promise<void> {
  const chosen = { name: "few corrections.csv", mimeType: "text/csv", buffer: Buffer.from(text) };
  await page.locator("correction-list input[type=file]").setInputFiles(chosen);
}

describe("a correction", () => {
  it("is written with its reason, marked, listed, taken back and undone", async () => {
    const page = await openFew();
    await correctEye(page);
    const eye = page.locator('case-grid [data-place="1 3"]');
    await expect.poll(async () => (await eye.textContent())?.trim()).toBe("left");
    expect(await eye.getAttribute("class")).toContain("corrected");
    const row = (await list(page).textContent()) ?? "";
    for (const part of ["eye", "right", "left", "drawing shows the left eye"]) {
      expect(row).toContain(part);
    }
    await page.getByRole("button", { name: "Undo", exact: true }).click();
    await expect.poll(() => list(page).count()).toBe(0);
    await page.getByRole("button", { name: "Redo", exact: true }).click();
    await expect.poll(() => list(page).count()).toBe(1);
    await list(page).getByRole("button", { name: "Take back" }).click();
    await expect.poll(() => list(page).count()).toBe(0);
    await expect.poll(async () => (await eye.textContent())?.trim()).toBe("right");
  });

  it("leaves the other rows standing while its own is read anew", async () => {
    const page = await openFew();
    await page.locator("case-grid").evaluate((grid) => {
      const on = window as unknown as { fetching: number };
      on.fetching = 0;
      new MutationObserver(() => {
        const lines = [...(grid.shadowRoot?.querySelectorAll("[role=rowheader]") ?? [])];
        on.fetching += lines.filter(({ textContent }) => textContent?.includes("…")).length;
      }).observe(grid.shadowRoot!, { subtree: true, childList: true, characterData: true });
    });
    await correctEye(page);
    await expect
      .poll(async () => (await page.locator('case-grid [data-place="1 3"]').textContent())?.trim())
      .toBe("left");
    const fetching = () => (window as unknown as { fetching: number }).fetching;
    expect(await page.evaluate(fetching)).toBe(0);
    await drop(page, "other.csv", few.replaceAll("SM00", "SX00"));
    await page.locator("book-header .facts", { hasText: "other.csv" }).waitFor();
    await expect.poll(() => page.evaluate(fetching)).toBeGreaterThan(0);
  });

  it("wants a reason", async () => {
    const page = await openFew();
    await page.locator('case-grid [data-place="1 3"]').click();
    await page.keyboard.press("Enter");
    await page.getByRole("combobox", { name: "Read it as" }).fill("left");
    await page.keyboard.press("Enter");
    expect(await page.getByRole("dialog", { name: "Correct a value" }).count()).toBe(1);
    expect(await list(page).count()).toBe(0);
  });

  it("has the sheet recalculate", async () => {
    const page = await openFew();
    await page.getByRole("button", { name: "Sheet", exact: true }).click();
    await settled(page);
    const before = await sentence(page, "how_often");
    await page.getByRole("button", { name: "Cases", exact: true }).click();
    const status = page.locator("case-grid [role=columnheader]", { hasText: "operation date" });
    const column = Number(await status.getAttribute("aria-colindex")) - 1;
    await page.locator(`case-grid [data-place="1 ${column}"]`).click();
    await page.keyboard.press("Enter");
    const dialog = page.getByRole("dialog", { name: "Correct a value" });
    await dialog.getByLabel("Read it as").fill("");
    await dialog.getByRole("textbox", { name: "Why" }).fill("of another patient");
    await page.keyboard.press("Enter");
    await page.locator("correction-list tbody tr").waitFor();
    await page.getByRole("button", { name: "Sheet", exact: true }).click();
    await settled(page);
    await expect.poll(() => sentence(page, "how_often")).not.toBe(before);
  });

  it("is saved as a file and laid again over the same cases", async () => {
    const page = await openFew();
    await correctEye(page);
    await page.getByText("1 correction is not saved as a file.").waitFor();
    const text = await savedCorrections(page);
    expect(text).toContain("drawing shows the left eye");
    await expect.poll(() => page.getByText("not saved as a file").count()).toBe(0);
    await drop(page, "few.csv", few);
    await expect.poll(() => list(page).count()).toBe(0);
    await openCorrections(page, text);
    await expect.poll(() => list(page).count()).toBe(1);
    const eye = page.locator('case-grid [data-place="1 3"]');
    await expect.poll(async () => (await eye.textContent())?.trim()).toBe("left");
    expect(await page.getByText("not saved as a file").count()).toBe(0);
  });

  it("is laid over its cases where its file is dropped on the page like any other", async () => {
    const page = await openFew();
    await correctEye(page);
    const text = await savedCorrections(page);
    await page.getByRole("button", { name: "Undo", exact: true }).click();
    await expect.poll(() => list(page).count()).toBe(0);
    await drop(page, "few corrections.csv", text);
    await expect.poll(() => list(page).count()).toBe(1);
    expect(await page.locator("book-header .facts").textContent()).toContain("few.csv");
  });

  it("may be dropped together with its cases and their notebook, in whatever order", async () => {
    const page = await openFew();
    await correctEye(page);
    const text = await savedCorrections(page);
    const notebook = "---\nholdfast: 1\ntitle: All at once\n---\n\n    rows = case_flow(cases)\n";
    await page.reload();
    await settled(page);
    await dropAll(page, [
      ["few corrections.csv", text],
      ["few.csv", few],
      ["together.md", notebook],
    ]);
    await page.locator("h1", { hasText: "All at once" }).waitFor();
    await page.getByRole("button", { name: "Cases", exact: true }).click();
    await expect.poll(() => list(page).count()).toBe(1);
    expect(await page.locator("book-header .facts").textContent()).toContain("few.csv");
  });

  it("stays behind with its file, and is offered to the cases that are opened next", async () => {
    const page = await openFew();
    await correctEye(page);
    await drop(page, "few again.csv", few.replace("0002,SM0002", "0002,SM9999"));
    await page.locator("book-header .facts", { hasText: "few again.csv" }).waitFor();
    await page.getByText("1 correction of few.csv, which was open before").waitFor();
    expect(await list(page).count()).toBe(0);
    await page.getByRole("button", { name: "Lay them over these cases" }).click();
    await expect.poll(() => list(page).count()).toBe(1);
    const eye = page.locator('case-grid [data-place="1 3"]');
    await expect.poll(async () => (await eye.textContent())?.trim()).toBe("left");
    expect(await page.getByText("which was open before").count()).toBe(0);
    const undo = page.getByRole("button", { name: "Undo", exact: true });
    await undo.click();
    await expect.poll(() => list(page).count()).toBe(0);
    await undo.click();
    await page.locator("book-header .facts", { hasText: "few.csv" }).waitFor();
    await expect.poll(() => list(page).count()).toBe(1);
  });

  it("that no longer fits is shown and not applied", async () => {
    const page = await openFew();
    await correctEye(page);
    const text = await savedCorrections(page);
    const changed = few.replace("0001,SM0001,right", "0001,SM0001,unknown");
    await drop(page, "few.csv", changed);
    await expect.poll(() => list(page).count()).toBe(0);
    await openCorrections(page, text);
    await page.getByText("1 correction no longer fits").waitFor();
    expect(await list(page).textContent()).toContain("no longer fits");
    const eye = page.locator('case-grid [data-place="1 3"]');
    expect((await eye.textContent())?.trim()).not.toBe("left");
    await page.getByRole("button", { name: "Take out those that no longer fit" }).click();
    await expect.poll(() => list(page).count()).toBe(0);
  });

  it("that is not saved has the browser ask before the page is left", async () => {
    const page = await openFew();
    await correctEye(page);
    const asked = page.waitForEvent("dialog");
    void page.evaluate(() => location.reload());
    const dialog = await asked;
    expect(dialog.type()).toBe("beforeunload");
    await dialog.dismiss();
    expect(await list(page).count()).toBe(1);
  });
});

describe("a second file", () => {
  const rows = few.trimEnd().split("\n");

  async function add(page: Page, button: string, name: string, text: string): Promise<string> {
    await page.locator("further-files").getByRole("button", { name: button }).click();
    const chosen = { name, mimeType: "text/csv", buffer: Buffer.from(text) };
    await page.locator("further-files input[type=file]").setInputFiles(chosen);
    const told = page.locator("further-files li");
    await told.waitFor();
    return ((await told.textContent()) ?? "").replace(/\s+/g, " ");
  }

  it("of the next quarter says what is new, changed and missing", async () => {
    const page = await openFew();
    const later = demoCases.split("\n").slice(21, 26);
    const changed = rows[2]!.replace("consultant", "fellow");
    const text = [rows[0], changed, ...rows.slice(3), ...later].join("\n");
    const told = await add(page, "Add next quarter's file", "next.csv", `${text}\n`);
    expect(told).toContain("5 rows new");
    expect(told).toContain("1 value changed");
    expect(told).toContain("1 earlier row is not in it");
    await expect
      .poll(() => page.getByRole("grid").getAttribute("aria-rowcount"))
      .toBe(String(rows.length + 5));
  });

  it("that falls on the page with the first is put to it, and nothing to cases that were open", async () => {
    const page = await openFew();
    const half = (from: number, to: number) => `${[rows[0], ...rows.slice(from, to)].join("\n")}\n`;
    await dropAll(page, [
      ["first-half.csv", half(1, 9)],
      ["second-half.csv", half(9, rows.length)],
    ]);
    await expect
      .poll(() => page.locator("further-files li").textContent())
      .toMatch(new RegExp(`second-half\\.csv[^]*${rows.length - 9} rows? new`));
    await expect
      .poll(() => page.getByRole("grid").getAttribute("aria-rowcount"))
      .toBe(String(rows.length));
    await dropAll(page, [
      ["faulty.csv", "nothing"],
      ["second-half.csv", half(9, rows.length)],
    ]);
    // the first is refused and said; the second is opened by itself, not put to what was open
    await page.locator("book-notices").getByText("faulty.csv").first().waitFor();
    await expect
      .poll(() => page.getByRole("grid").getAttribute("aria-rowcount"))
      .toBe(String(rows.length - 8));
    expect(await page.locator("further-files li").count()).toBe(0);
  });

  it("of follow-up says what became of the operations that are known", async () => {
    const page = await openFew();
    const text =
      "case,last seen,status last seen\n0001,2025-01-10,attached\n9999,2025-01-10,attached\n";
    const told = await add(page, "Add a follow-up file", "visits.csv", text);
    expect(told).toContain("(follow-up): 2 rows read");
    expect(told).toContain("1 value changed");
    expect(told).toContain("1 row left out");
    const leftOut = page.locator("left-out-rows li", {
      hasText: "no operation in the earlier file",
    });
    expect(await leftOut.textContent()).toContain("line 3 (visits.csv)");
  });
});
