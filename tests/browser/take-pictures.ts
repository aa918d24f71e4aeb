import { mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import type { Page } from "playwright-core";
import { openBrowser } from "./open-browser.ts";
import { cell, openPage } from "./opened-page.ts";

/**
 * Takes pictures of every leaf of the built page at three widths, in a light and a dark room, for people to look at.
 *
 *     npx vite build
 *     npx rolldown tests/browser/take-pictures.ts --platform node --format esm \
 *       --external playwright-core --external @sparticuz/chromium --file out/take-pictures.mjs
 *     node out/take-pictures.mjs out/pictures
 */
const into = resolve(process.argv[2] ?? "out/pictures");
const file = resolve("dist/page/index.html");
const sizes = [
  [1440, 900],
  [1024, 768],
  [390, 844],
] as const;

mkdirSync(into, { recursive: true });
const browser = await openBrowser();
for (const [width, height] of sizes) {
  for (const room of ["light", "dark"] as const) {
    const { page } = await openPage(browser, { width, height, file });
    const dark = page.getByRole("button", { name: "Dark room" });
    if (room === "dark" && (await dark.isVisible())) await dark.click();
    await takePictures(page, `${width}-${room}`);
    await page.context().close();
  }
}
await browser.close();

async function takePictures(page: Page, variant: string): Promise<void> {
  const take = (name: string) => page.screenshot({ path: join(into, `${name}-${variant}.png`) });
  await take("first-open");
  await cell(page, "how_often").locator("answer-sentence button").first().click();
  await page.locator("eyes-behind tbody tr").first().waitFor();
  await take("eyes-behind-a-number");
  await cell(page, "when").scrollIntoViewIfNeeded();
  await cell(page, "when").locator("answer-chart svg").waitFor();
  await cell(page, "when").locator("summary").click();
  await cell(page, "when").locator(".ground").focus();
  for (let i = 0; i < 6; i++) await page.keyboard.press("ArrowRight");
  await take("sheet");
  await page.getByRole("button", { name: "Cases", exact: true }).click();
  await page.locator("[role=rowheader]").first().waitFor();
  await take("cases");
  await page.getByRole("button", { name: "Meeting", exact: true }).click();
  await page.locator("meeting-page[shown] answer-chart svg").waitFor();
  await take("meeting");
  await page.getByRole("button", { name: "Pages", exact: true }).click();
  await take("meeting-pages");
  await page.keyboard.press("End");
  await take("meeting-actions");
  await page.getByRole("button", { name: "Sheet", exact: true }).click();
  await page.getByLabel("Find in names, workings and answers").fill("technique");
  await take("find");
  await page.getByLabel("Find in names, workings and answers").fill("");
  await page.getByRole("button", { name: "Notebooks" }).click();
  await take("notebooks");
  await page.keyboard.press("Escape");
}
