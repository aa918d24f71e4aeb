/**
 * Makes src/charts/font-widths.ts: the advance widths of the bundled sans in thousandths of an em,
 * measured in Chromium on the font file itself (tabular numerals, kerning off, 1000 px).
 *
 * Run from the top of the project:   node tests/references/fonts/measure-font-widths.mjs
 * The browser is `CHROMIUM` if set, else /usr/bin/chromium. Then format: npx biome format --write src/charts
 */
import { readFileSync, writeFileSync } from "node:fs";
import { chromium } from "playwright-core";

const fontFolder = "node_modules/@fontsource-variable/source-sans-3";
const subsets = ["latin", "latin-ext", "greek"];
const weights = [400, 600];

/** The characters measured: first and last code point of each run. */
const runs = [
  [0x20, 0x7e],
  [0xa0, 0x17f],
  [0x218, 0x21b],
  [0x391, 0x3a1],
  [0x3a3, 0x3a9],
  [0x3b1, 0x3c9],
  [0x2010, 0x2015],
  [0x2018, 0x201e],
  [0x2020, 0x2022],
  [0x2026, 0x2026],
  [0x2030, 0x2030],
  [0x20ac, 0x20ac],
  [0x2122, 0x2122],
  [0x2190, 0x2193],
  [0x2212, 0x2212],
  [0x2248, 0x2248],
  [0x2260, 0x2260],
  [0x2264, 0x2265],
];

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
  ],
});
const page = await browser.newPage();
await page.setContent(`<style>${subsets.map(fontFace).join("\n")}
  span { font-family: measured; font-size: 1000px; font-kerning: none; white-space: pre;
    font-variant-numeric: tabular-nums; text-rendering: geometricPrecision; }</style><body>`);

const measured = {};
for (const weight of weights) measured[weight] = await page.evaluate(measureRuns, { runs, weight });
writeFileSync("src/charts/font-widths.ts", asModule(measured, browser.version()));
await browser.close();

function fontFace(subset) {
  const file = readFileSync(`${fontFolder}/files/source-sans-3-${subset}-wght-normal.woff2`);
  const css = readFileSync(`${fontFolder}/index.css`, "utf8");
  const start = css.indexOf(`/* source-sans-3-${subset}-wght-normal */`);
  const range = /unicode-range: ([^;]+);/.exec(css.slice(start))[1];
  return `@font-face { font-family: measured; font-weight: 200 900; unicode-range: ${range};
    src: url(data:font/woff2;base64,${file.toString("base64")}) format("woff2"); }`;
}

async function measureRuns({ runs, weight }) {
  const characters = runs.flatMap(([first, last]) =>
    Array.from({ length: last - first + 1 }, (_, i) => String.fromCodePoint(first + i)),
  );
  await document.fonts.load(`${weight} 20px measured`, characters.join(""));
  const widths = new Map();
  for (const character of characters) {
    const span = document.body.appendChild(document.createElement("span"));
    span.style.fontWeight = weight;
    span.textContent = character.repeat(4);
    widths.set(character, Math.round(span.getBoundingClientRect().width / 4));
    span.remove();
  }
  return runs.map(([first, last]) => ({
    first,
    widths: Array.from({ length: last - first + 1 }, (_, i) =>
      widths.get(String.fromCodePoint(first + i)),
    ),
  }));
}

function asModule(measured, browserVersion) {
  const { version } = JSON.parse(readFileSync(`${fontFolder}/package.json`, "utf8"));
  return `/**
 * Advance widths of Source Sans 3 (@fontsource-variable/source-sans-3 ${version}) with tabular
 * numerals, in thousandths of an em, by weight: runs of code points from \`first\` on.
 * Made by tests/references/fonts/measure-font-widths.mjs in Chromium ${browserVersion}.
 */
export interface WidthRun {
  readonly first: number;
  readonly widths: readonly number[];
}

export const regularWidths: readonly WidthRun[] = ${JSON.stringify(measured[400])};

export const semiboldWidths: readonly WidthRun[] = ${JSON.stringify(measured[600])};
`;
}
