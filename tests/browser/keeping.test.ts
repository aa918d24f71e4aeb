import { pathToFileURL } from "node:url";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
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

async function openAgain(page: Page): Promise<Page> {
  const again = await page.context().newPage();
  again.setDefaultTimeout(15_000);
  await again.goto(pathToFileURL(builtPage).href);
  await cell(again, "how_often").locator("answer-sentence").waitFor();
  await settled(again);
  return again;
}

describe("a crash", () => {
  it("loses nothing: neither what was changed nor what was being written", async () => {
    const { page } = await open();
    const node = new NodeSession();
    const { other, label } = node.choice("window");
    await cell(page, "window").getByText(label, { exact: true }).click();
    node.session.setSetting("window", other);
    await expect.poll(() => sentences(page)).toEqual(await node.sentences());
    await page.getByText("Kept on this device as you go").waitFor();
    await cell(page, "why").focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => focused(page)).toContain("Working of the cell");
    await page.keyboard.press("Control+a");
    await page.keyboard.insertText("failure_causes(eyes, by: lens)");
    await page.waitForTimeout(300);
    await kill(page);
    const again = await openAgain(page);
    const notices = async () =>
      (await again.locator("book-notices .notice").allTextContents()).join();
    await expect.poll(notices).toContain("opened as you left it");
    await expect.poll(notices).toContain("What you were writing in why");
    node.session.setWorking("why", "failure_causes(eyes, by: lens)");
    await expect.poll(() => sentences(again)).toEqual(await node.sentences());
    expect(await again.locator("three-ways").count()).toBe(0);
  });

  it("keeps no cases on the device", async () => {
    const { page } = await open();
    await cell(page, "window").getByRole("radio").first().check();
    await page.getByText("Kept on this device as you go").waitFor();
    const kept = await page.evaluate(() => JSON.stringify(Object.entries(localStorage)));
    expect(kept).toContain("failure_rate");
    expect(kept).not.toContain("SM0001");
  });

  it("is forgotten by beginning again", async () => {
    const { page } = await open();
    await cell(page, "window").getByRole("radio").first().check();
    await page.getByText("Kept on this device as you go").waitFor();
    await page.getByRole("button", { name: "Notebooks" }).click();
    await page.getByRole("button", { name: "Begin again" }).click();
    await page.locator("three-ways").waitFor();
    await expect.poll(() => page.evaluate(() => localStorage.length)).toBe(0);
  });
});
