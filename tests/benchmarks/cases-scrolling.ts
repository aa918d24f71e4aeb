/**
 * How smoothly 50,000 rows of 63 columns scroll on the built page: the time between frames while
 * the grid moves by some rows a frame, downwards and then to the right, and how many rows are
 * drawn. Not a test: times are not the same on two machines.
 *
 *     npm run benchmark:scrolling
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { generateDemo } from "../../data-demo/generate.ts";
import { openBrowser } from "../browser/open-browser.ts";
import { openPage } from "../browser/opened-page.ts";

const rows = 50_000;
const frames = 300;

const folder = mkdtempSync(join(tmpdir(), "holdfast-scrolling-"));
const path = join(folder, "large.csv");
const { csv } = generateDemo(7, { faults: false, eyes: 46_000 });
writeFileSync(path, csv.split("\n", rows + 1).join("\n"));

const browser = await openBrowser();
const { page } = await openPage(browser, { file: resolve("dist/page/index.html") });
page.setDefaultTimeout(120_000);
await page.locator("book-tools input[type=file]").setInputFiles(path);
await page.locator("book-header .facts", { hasText: "large.csv" }).waitFor();
await page.getByRole("button", { name: "Cases", exact: true }).click();
await page.locator("case-grid [role=rowheader]").first().waitFor();
const drawn = await page.locator("case-grid [role=row]").count();
console.log(`${await page.getByRole("grid").getAttribute("aria-rowcount")} rows, ${drawn} drawn`);
for (const by of [
  { down: 81, right: 0 },
  { down: 2700, right: 0 },
  { down: 0, right: 40 },
]) {
  const times = (await framesWhile(by)).toSorted((one, other) => one - other);
  const at = (share: number) => times[Math.floor(share * (times.length - 1))]?.toFixed(1);
  console.log(
    `${by.down} px down, ${by.right} px right a frame: median ${at(0.5)} ms, ` +
      `19 of 20 under ${at(0.95)} ms, longest ${at(1)} ms`,
  );
}
await browser.close();
rmSync(folder, { recursive: true });

/** Milliseconds between frames while the grid is scrolled so at each. */
function framesWhile(by: { readonly down: number; readonly right: number }): Promise<number[]> {
  return page.locator("case-grid .grid").evaluate(
    async (grid, { down, right, count }) => {
      grid.scrollTo(0, 0);
      const times: number[] = [];
      let last = await new Promise(requestAnimationFrame);
      for (let frame = 0; frame < count; frame++) {
        grid.scrollBy(right, down);
        const now = await new Promise(requestAnimationFrame);
        times.push(now - last);
        last = now;
      }
      return times;
    },
    { ...by, count: frames },
  );
}
