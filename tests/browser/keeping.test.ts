import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { BrowserContext, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { openKillable } from "./killable-browser.ts";
import { NodeSession } from "./node-session.ts";
import { cell, focused, sentences, settled } from "./opened-page.ts";
import { builtPage } from "./project-path.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** Ends the page at once, as a crash does: nothing is asked and nothing is run. */
async function kill(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const ended = page.waitForEvent("crash");
  void session.send("Page.crash").catch(() => {});
  await ended;
}

/** All that the page keeps in this browser. */
function keptTexts(page: Page): Promise<readonly unknown[]> {
  return page.evaluate(async () => {
    const names = (await indexedDB.databases()).map(({ name }) => name);
    if (names.join() !== "holdfast" || localStorage.length > 0) return ["something else"];
    const settled = <T>(request: IDBRequest<T>) =>
      new Promise<T>((done) => {
        request.onsuccess = () => done(request.result);
      });
    const database = await settled(indexedDB.open("holdfast"));
    return settled(database.transaction("texts").objectStore("texts").getAll());
  });
}

async function openAgain(context: BrowserContext): Promise<Page> {
  const again = await context.newPage();
  again.setDefaultTimeout(15_000);
  await again.goto(pathToFileURL(builtPage).href);
  await cell(again, "how_often").locator("answer-sentence").waitFor();
  await settled(again);
  return again;
}

/** The page in a browser with a profile of its own on the disk, and a way to kill that browser. */
async function openProfile(profile: string) {
  const { context, kill: end } = await openKillable(profile);
  const page = await openAgain(context);
  return { page, kill: end };
}

describe("a crash", () => {
  it("loses nothing: neither what was changed nor what was being written", async () => {
    const { page } = await open();
    const node = new NodeSession();
    const { other, label } = node.choice("window");
    await cell(page, "window").getByText(label, { exact: true }).click();
    node.session.setSetting("window", other);
    await expect.poll(() => sentences(page)).toEqual(await node.sentences());
    await page.getByText("Kept on this device").waitFor();
    await cell(page, "why").focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => focused(page)).toContain("Working of the cell");
    await page.keyboard.press("Control+a");
    await page.keyboard.insertText("failure_causes(eyes, by: lens)");
    await page.waitForTimeout(300);
    await kill(page);
    const again = await openAgain(page.context());
    const notices = async () =>
      (await again.locator("book-notices .notice").allTextContents()).join();
    await expect.poll(notices).toContain("opened as you left it");
    await expect.poll(notices).toContain("What you were writing in why");
    node.session.setWorking("why", "failure_causes(eyes, by: lens)");
    await expect.poll(() => sentences(again)).toEqual(await node.sentences());
    expect(await again.locator("three-ways").count()).toBe(0);
  });

  it("of the whole browser loses nothing either", async () => {
    const profile = mkdtempSync(join(tmpdir(), "holdfast-profile-"));
    try {
      const first = await openProfile(profile);
      const node = new NodeSession();
      const { other, label } = node.choice("window");
      await cell(first.page, "window").getByText(label, { exact: true }).click();
      node.session.setSetting("window", other);
      await first.page.getByText("Kept on this device").waitFor();
      await cell(first.page, "why").focus();
      await first.page.keyboard.press("Enter");
      await expect.poll(() => focused(first.page)).toContain("Working of the cell");
      await first.page.keyboard.press("Control+a");
      await first.page.keyboard.insertText("failure_causes(eyes, by: lens)");
      await first.page.waitForTimeout(300);
      await first.kill();
      const second = await openProfile(profile);
      node.session.setWorking("why", "failure_causes(eyes, by: lens)");
      await expect.poll(() => sentences(second.page)).toEqual(await node.sentences());
      await second.kill();
    } finally {
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    }
  });

  it("keeps no cases on the device", async () => {
    const { page } = await open();
    await cell(page, "window").getByRole("radio").first().check();
    await page.getByText("Kept on this device").waitFor();
    const kept = JSON.stringify(await keptTexts(page));
    expect(kept).toContain("failure_rate");
    expect(kept).not.toContain("SM0001");
  });

  it("is forgotten by beginning again", async () => {
    const { page } = await open();
    await cell(page, "window").getByRole("radio").first().check();
    await page.getByText("Kept on this device").waitFor();
    await page.getByRole("button", { name: "Notebooks" }).click();
    await page.getByRole("button", { name: "Begin again" }).click();
    await page.locator("three-ways").waitFor();
    await expect.poll(() => keptTexts(page)).toEqual([]);
  });
});
