import { createHash } from "node:crypto";
import { resolve } from "node:path";
import type { Browser, Page } from "playwright-core";
import { build } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openBrowser } from "../browser/open-browser.ts";
import { bundledFontCss } from "./bundled-font.ts";

/** Needs Chromium (`CHROMIUM` or /usr/bin/chromium); left out without. */
describe("drawing in a page without 'unsafe-eval'", () => {
  let browser: Browser;
  let page: Page;
  const faults: string[] = [];

  beforeAll(async () => {
    browser = await openBrowser();
    page = await browser.newPage();
    page.on("console", (message) => {
      if (message.type() === "error") faults.push(message.text());
    });
    page.on("pageerror", (error) => faults.push(error.message));
    await page.setContent(strictPage(await bundledPage()));
    await page.waitForFunction(() => document.body.dataset.drawn === "yes");
  }, 60_000);

  afterAll(() => browser.close());

  it("draws without any fault or refused evaluation", async () => {
    expect(faults).toEqual([]);
    expect(await page.locator("#here svg text").count()).toBeGreaterThan(10);
  });

  it("is one image with the chart's description to a screen reader", async () => {
    const image = page.locator('#here [role="img"]');
    expect(await image.getAttribute("aria-label")).toContain("vitrectomy: 120 eyes");
    expect(await page.locator("#here svg").getAttribute("aria-hidden")).toBe("true");
  });

  it("has every text where the drawing made outside the browser has it", async () => {
    const there = await page.$$eval("#here svg text", placesOfTexts);
    const other = await page.$$eval("#outside svg text", placesOfTexts);
    expect(there.length).toBeGreaterThan(10);
    // The drawing outside is written to a thousandth of a pixel.
    const toThousandth = (place: string) =>
      place.replace(/-?\d+\.\d{4,}/g, (length) => String(Math.round(Number(length) * 1000) / 1000));
    expect(there.map(([text, place]) => [text, toThousandth(place ?? "")])).toEqual(other);
  });

  it("keeps every text within the drawing, as the browser measures it", async () => {
    const outside = await page.$$eval("#here svg text", (texts) => {
      const frame = document.querySelector("#here svg")!.getBoundingClientRect();
      return texts
        .map((text) => ({ text: text.textContent, box: text.getBoundingClientRect() }))
        .filter(({ box }) => box.left < frame.left - 0.5 || box.right > frame.right + 0.5)
        .map(({ text }) => text);
    });
    expect(outside).toEqual([]);
  });

  it("calls back with the pick of the step clicked, and not for a mark without one", async () => {
    await page.locator("#here svg text", { hasText: "3 mo" }).click();
    expect(await picked(page)).toEqual([]);
    const drop = page.locator("#here svg line[stroke-width='12']").nth(1);
    const box = (await drop.boundingBox())!;
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
    expect(await picked(page)).toEqual(["step-41"]);
  });

  it("takes everything away when destroyed", async () => {
    await page.click("#destroy");
    expect(await page.locator("#here").innerHTML()).toBe("");
  });
});

function picked(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => JSON.parse(document.body.dataset.picked ?? "[]"));
}

function placesOfTexts(texts: Element[]): readonly (string | null)[][] {
  return texts.map((text) => [text.textContent, text.getAttribute("transform")]);
}

/** The page's script in one piece, with the slim set of vega's parts. */
async function bundledPage(): Promise<string> {
  const result = await build({
    configFile: false,
    logLevel: "error",
    resolve: { alias: [{ find: /^vega$/, replacement: resolve("src/charts/slim-vega.ts") }] },
    build: {
      write: false,
      lib: { entry: resolve("tests/charts/drawn-page.ts"), formats: ["es"] },
      rolldownOptions: { output: { codeSplitting: false } },
    },
  });
  const [output] = Array.isArray(result) ? result : [result];
  if (!output || !("output" in output)) throw new Error("The build gave no output.");
  return output.output[0].code;
}

function strictPage(script: string): string {
  const safe = script.replaceAll("</script", "<\\/script");
  const hash = createHash("sha256").update(safe).digest("base64");
  return `<!doctype html><html><head>
    <meta http-equiv="Content-Security-Policy" content="default-src 'none'; connect-src 'none';
      font-src data:; style-src 'unsafe-inline'; script-src 'sha256-${hash}'">
    <style>${bundledFontCss()}</style></head>
    <body><div id="here"></div><div id="outside"></div><button id="destroy">x</button>
    <script type="module">${safe}</script></body></html>`;
}
