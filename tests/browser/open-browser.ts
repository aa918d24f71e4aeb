import { existsSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium } from "playwright-core";

const flags = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** Without these the packaged one ends where shared memory or a zygote is not to be had. */
const inContainer = ["--disable-dev-shm-usage", "--no-zygote", "--font-render-hinting=none"];

/**
 * A headless Chromium with a fresh profile: the one named by CHROMIUM, else the system's, else
 * the one that comes as a package, so that the tests need nothing but the packages.
 */
export async function openBrowser(): Promise<Browser> {
  return chromium.launch(await browserToRun());
}

/** Which program to run, and how. */
export async function browserToRun(): Promise<{
  readonly executablePath: string;
  readonly args: string[];
}> {
  const system = process.env.CHROMIUM ?? "/usr/bin/chromium";
  if (existsSync(system)) return { executablePath: system, args: flags };
  return { executablePath: await packagedBrowser(), args: [...flags, ...inContainer] };
}

/**
 * Unpacks the packaged browser with its libraries and its one font. The font has to be named to
 * it: without any, it ends as soon as a page holds a field to type in.
 */
async function packagedBrowser(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), "holdfast-browser-"));
  process.env.AWS_LAMBDA_JS_RUNTIME ??= "nodejs20.x";
  process.env.TMPDIR = folder;
  const { default: packaged } = await import("@sparticuz/chromium");
  const executablePath = await packaged.executablePath();
  const fonts = join(folder, "fonts.conf");
  writeFileSync(
    fonts,
    `<?xml version="1.0"?><fontconfig><dir>${join(folder, "fonts")}</dir>` +
      `<cachedir>${join(folder, "fonts-cache")}</cachedir></fontconfig>`,
  );
  process.env.FONTCONFIG_FILE = fonts;
  return executablePath;
}
