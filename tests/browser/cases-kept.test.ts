import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { BrowserContext, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { openKillable } from "./killable-browser.ts";
import { demoCases } from "./node-session.ts";
import { cell, drop, focused, sentence, settled } from "./opened-page.ts";
import { builtPage } from "./project-path.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

const few = `${demoCases.split("\n").slice(0, 21).join("\n")}\n`;
const passphrase = "four lamps over water";

/** Opens the page in another window. */
async function openWindow(context: BrowserContext): Promise<Page> {
  const again = await context.newPage();
  again.setDefaultTimeout(15_000);
  await again.addInitScript(watchShown);
  await again.goto(pathToFileURL(builtPage).href);
  return again;
}

/** Runs in the page: from its first frame on, keeps what the header told and the sheet answered. */
function watchShown(): void {
  const shown = new Set<string>();
  Object.assign(window, { shown });
  const within = (root: ParentNode | null | undefined, path: readonly string[]): Element[] => {
    const [first, ...rest] = path;
    if (first === undefined || root === null || root === undefined) return [];
    const found = [...root.querySelectorAll(first)];
    return rest.length === 0 ? found : found.flatMap((one) => within(one.shadowRoot, rest));
  };
  const look = (): void => {
    const facts = within(document, ["holdfast-book", "book-header", ".facts"]);
    const answer = ["sheet-leaf", "sheet-cell", "answer-sentence", "p"];
    const said = within(document, ["holdfast-book", ...answer]);
    for (const { textContent } of [...facts, ...said]) shown.add(textContent?.trim() ?? "");
    requestAnimationFrame(look);
  };
  look();
}

/** All that the header told and the sheet answered in any frame since the page began. */
async function shownSoFar(page: Page): Promise<readonly string[]> {
  const shown = await page.evaluate(() => [...(window as unknown as { shown: string[] }).shown]);
  return shown.filter((text) => text !== "");
}

async function openAgain(context: BrowserContext): Promise<Page> {
  const again = await openWindow(context);
  await cell(again, "how_often").locator("answer-sentence").waitFor();
  await settled(again);
  return again;
}

async function toCases(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Cases", exact: true }).click();
  await page.locator("case-grid [role=rowheader]").first().waitFor();
}

async function openOwn(page: Page): Promise<void> {
  await drop(page, "few.csv", few);
  await page.locator("book-header .facts", { hasText: "few.csv" }).waitFor();
  await toCases(page);
}

const keeping = (page: Page) => page.locator("keep-cases");

async function keep(page: Page, secret = ""): Promise<void> {
  if (secret !== "") await keeping(page).getByLabel("Passphrase").fill(secret);
  await keeping(page).getByRole("button", { name: "Keep on this device" }).click();
  await keeping(page).getByText("The cases are kept on this device").waitFor();
}

async function correct(page: Page, to: string): Promise<void> {
  await page.locator('case-grid [data-place="1 3"]').click();
  await page.keyboard.press("Enter");
  const dialog = page.getByRole("dialog", { name: "Correct a value" });
  await dialog.getByRole("combobox", { name: "Read it as" }).fill(to);
  await dialog.getByRole("textbox", { name: "Why" }).fill("drawing");
  await page.keyboard.press("Enter");
  await page.locator("correction-list tbody tr").first().waitFor();
}

/** How often the cases were written, and all that is kept of them as text. */
function onDevice(page: Page): Promise<{ readonly version: number; readonly text: string }> {
  return page.evaluate(async () => {
    const names = (await indexedDB.databases()).map(({ name }) => name);
    if (!names.includes("holdfast cases")) return { version: 0, text: "" };
    const settled = <T>(request: IDBRequest<T>) =>
      new Promise<T>((done) => {
        request.onsuccess = () => done(request.result);
      });
    const database = await settled(indexedDB.open("holdfast cases"));
    const store = database.transaction("cases").objectStore("cases");
    const { version, kept } = await settled(store.get("all"));
    database.close();
    const bytes = kept.open ?? kept.sealed.bytes;
    return { version, text: new TextDecoder("latin1").decode(bytes) };
  });
}

const eye = async (page: Page) =>
  (await page.locator('case-grid [data-place="1 3"]').textContent())?.trim();

describe("keeping cases on this device", () => {
  it("is off until it is asked for, and says what it does", async () => {
    const { page } = await open();
    await openOwn(page);
    await keeping(page).getByText("in memory alone").waitFor();
    await correct(page, "left");
    expect(await onDevice(page)).toEqual({ version: 0, text: "" });
  });

  it("survives the end of the browser, corrections and all", async () => {
    const profile = mkdtempSync(join(tmpdir(), "holdfast-profile-"));
    try {
      const first = await openKillable(profile);
      const page = await openAgain(first.context);
      await openOwn(page);
      await keep(page);
      await correct(page, "left");
      await expect.poll(async () => (await onDevice(page)).version).toBe(2);
      await first.kill();
      const second = await openKillable(profile);
      const again = await openAgain(second.context);
      await again.locator("book-header .facts", { hasText: "few.csv" }).waitFor();
      await toCases(again);
      await expect.poll(() => eye(again)).toBe("left");
      expect(await again.locator("correction-list tbody tr").count()).toBe(1);
      await second.kill();
    } finally {
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    }
  });

  it("under a passphrase hides them from all who do not know it", async () => {
    const { page } = await open();
    await openOwn(page);
    await keep(page, passphrase);
    const { text } = await onDevice(page);
    expect(text.length).toBeGreaterThan(few.length);
    for (const plain of ["SM0001", "vitrectomy", "few.csv"]) expect(text).not.toContain(plain);
    const again = await openWindow(page.context());
    await again.getByText("Cases are kept on this device under a passphrase").waitFor();
    await expect
      .poll(() =>
        keeping(again)
          .getByLabel("Passphrase")
          .evaluate((field) => field.matches(":focus")),
      )
      .toBe(true);
    await keeping(again).getByLabel("Passphrase").fill("another one altogether");
    await keeping(again).getByRole("button", { name: "Open the kept cases" }).click();
    await keeping(again).getByText("This is not the passphrase").waitFor();
    await keeping(again).getByLabel("Passphrase").fill(passphrase);
    await keeping(again).getByRole("button", { name: "Open the kept cases" }).click();
    await again.locator("book-header .facts", { hasText: "few.csv" }).waitFor();
    await keeping(again).getByText("They are encrypted").waitFor();
    expect(await focused(again)).toBe("The rows");
    const shown = await shownSoFar(again);
    expect(shown.filter((text) => text.includes("repairs.csv"))).toEqual([]);
    expect(shown[0]).toContain("no cases yet");
    await correct(again, "left");
    await expect.poll(async () => (await onDevice(again)).version).toBe(2);
    expect((await onDevice(again)).text).not.toContain("SM0001");
  });

  it("opens them before anything of the demo is worked out", async () => {
    const { page } = await open();
    const invented = await sentence(page, "how_often");
    await openOwn(page);
    await keep(page);
    const again = await openAgain(page.context());
    await again.locator("book-header .facts", { hasText: "few.csv" }).waitFor();
    const shown = await shownSoFar(again);
    expect(shown.filter((text) => text.includes("few.csv"))).not.toEqual([]);
    expect(shown.filter((text) => text.includes("repairs.csv"))).toEqual([]);
    expect(shown.map((text) => text.replace(/\s+/g, " "))).not.toContain(invented);
    expect(await again.getByRole("button", { name: "Undo", exact: true }).isDisabled()).toBe(true);
  });

  it("under a passphrase can be left closed, and the invented cases be looked at", async () => {
    const { page } = await open();
    await openOwn(page);
    await keep(page, passphrase);
    const again = await openWindow(page.context());
    await again.getByRole("button", { name: "Look at invented cases instead" }).click();
    await again.locator("book-header .facts", { hasText: "repairs.csv" }).waitFor();
    await keeping(again).getByText("Cases are kept on this device under a passphrase").waitFor();
    expect((await onDevice(again)).version).toBe(1);
  });

  it("keeps the key of patients' codes only where that is asked for", async () => {
    const { page } = await open();
    await openOwn(page);
    const codes = page.locator("patient-key");
    const download = page.waitForEvent("download");
    await codes.getByRole("button", { name: "Make a key and save it" }).click();
    const made = readFileSync(await (await download).path(), "utf8");
    await codes.getByText("Codes are made with your key").waitFor();
    const again = page.waitForEvent("download");
    await codes.getByRole("button", { name: "Save the key again" }).click();
    expect(readFileSync(await (await again).path(), "utf8")).toBe(made);
    await keep(page);
    const without = await openAgain(page.context());
    await toCases(without);
    await without.locator("patient-key").getByText("Patients are numbered").waitFor();
    await without.close();
    await keeping(page).getByRole("button", { name: "Erase what is kept" }).click();
    await keeping(page).getByRole("checkbox", { name: "Keep the key" }).check();
    await keep(page);
    const withKey = await openAgain(page.context());
    await toCases(withKey);
    await withKey.locator("patient-key").getByText("Codes are made with your key").waitFor();
    const code = (on: Page) => on.locator('case-grid [data-place="1 2"]').textContent();
    expect(await code(withKey)).toBe(await code(page));
  });

  it("is erased with one act", async () => {
    const { page } = await open();
    await openOwn(page);
    await keep(page);
    expect((await onDevice(page)).text).toContain("SM0001");
    await keeping(page).getByRole("button", { name: "Erase what is kept" }).click();
    await keeping(page).getByText("in memory alone").waitFor();
    expect(await onDevice(page)).toEqual({ version: 0, text: "" });
    const again = await openAgain(page.context());
    expect(await again.locator("book-header .facts").textContent()).toContain("repairs.csv");
  });

  it("in two windows never overwrites what the other kept", async () => {
    const { page } = await open();
    await openOwn(page);
    await keep(page);
    const other = await openAgain(page.context());
    await other.locator("book-header .facts", { hasText: "few.csv" }).waitFor();
    await toCases(other);
    await correct(page, "left");
    await expect.poll(async () => (await onDevice(page)).version).toBe(2);
    const kept = await onDevice(page);
    await correct(other, "");
    await keeping(other).getByText("Another window has kept cases").waitFor();
    expect(await onDevice(other)).toEqual(kept);
    await keeping(other).getByRole("button", { name: "Keep these cases in their place" }).click();
    await keeping(other).getByText("The cases are kept on this device").waitFor();
    expect((await onDevice(other)).version).toBe(3);
  });
});
