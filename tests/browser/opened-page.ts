import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import type { Browser, Locator, Page } from "playwright-core";
import { builtPage } from "./project-path.ts";

/** The built page, opened from disk as a reader opens it, and everything it complained of. */
export interface OpenedPage {
  readonly page: Page;
  /** Errors and warnings of the console, and errors that nobody caught. */
  readonly complaints: string[];
  /** Addresses of everything that was asked for, but the page itself. */
  readonly requests: string[];
}

export interface PageOptions {
  readonly width?: number;
  readonly height?: number;
  readonly file?: string;
  /** A screen that is touched, as a tablet's. Default false. */
  readonly touch?: boolean;
  /** Whether to wait until nothing is being recalculated. Default true. */
  readonly settle?: boolean;
}

/** Opens the page and waits until the demo has recalculated. */
export async function openPage(browser: Browser, options: PageOptions = {}): Promise<OpenedPage> {
  const { width = 1440, height = 900, file = builtPage, settle = true, touch = false } = options;
  const context = await browser.newContext({
    viewport: { width, height },
    permissions: [],
    hasTouch: touch,
    reducedMotion: "reduce",
  });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  const complaints: string[] = [];
  const requests: string[] = [];
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("request", (request) => requests.push(request.url()));
  await page.goto(pathToFileURL(file).href);
  await cell(page, "how_often").locator("answer-sentence").waitFor();
  if (settle) await settled(page);
  return { page, complaints, requests: requests.splice(1) };
}

/** The cell of that name. */
export function cell(page: Page, name: string): Locator {
  return page.locator(`sheet-cell[aria-label^="${name}, "]`);
}

/** What the sentence of a cell says. */
export async function sentence(page: Page, name: string): Promise<string> {
  const text = await cell(page, name).locator("answer-sentence p").first().textContent();
  return (text ?? "").replace(/\s+/g, " ").trim();
}

/** Names of the cells and what they say, for all that have a sentence. */
export async function sentences(page: Page): Promise<ReadonlyMap<string, string>> {
  const names = await page.locator("sheet-cell:has(answer-sentence) .name").allTextContents();
  const said = new Map<string, string>();
  for (const name of names) said.set(name, await sentence(page, name));
  return said;
}

/** Waits until nothing on the sheet is being recalculated. */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const book = document.querySelector("holdfast-book");
    const sheet = book?.shadowRoot?.querySelector("sheet-leaf");
    const labels = [...(sheet?.shadowRoot?.querySelectorAll("sheet-cell") ?? [])].map(
      (cell) => cell.getAttribute("aria-label") ?? "",
    );
    return labels.length > 0 && labels.every((label) => !label.endsWith(", recalculating"));
  });
}

/** Lets a file fall on the page. */
export function drop(page: Page, name: string, text: string): Promise<void> {
  return dropAll(page, [[name, text]]);
}

/** Lets several files fall on the page together, each with its name and text. */
export async function dropAll(
  page: Page,
  files: readonly (readonly [name: string, text: string])[],
): Promise<void> {
  const data = await page.evaluateHandle((given) => {
    const transfer = new DataTransfer();
    for (const [name, text] of given) transfer.items.add(new File([text], name));
    return transfer;
  }, files);
  await page.dispatchEvent("holdfast-book", "drop", { dataTransfer: data });
}

/** The label of whatever has the keyboard, through all shadow roots. */
export function focused(page: Page): Promise<string> {
  return page.evaluate(() => {
    let element = document.activeElement;
    while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
    return element?.getAttribute("aria-label") ?? element?.textContent?.trim() ?? "";
  });
}

export function textOf(path: string): string {
  return readFileSync(path, "utf8");
}
