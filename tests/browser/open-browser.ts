import { existsSync, mkdtempSync } from "node:fs";
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

/**
 * A headless Chromium with a fresh profile: the one named by CHROMIUM, else the system's, else
 * the one that comes as a package, so that the tests need nothing but the packages.
 */
export async function openBrowser(): Promise<Browser> {
  const system = process.env.CHROMIUM ?? "/usr/bin/chromium";
  if (existsSync(system)) return chromium.launch({ executablePath: system, args: flags });
  process.env.AWS_LAMBDA_JS_RUNTIME ??= "nodejs20.x";
  process.env.TMPDIR ??= mkdtempSync(join(tmpdir(), "holdfast-browser-"));
  const { default: packaged } = await import("@sparticuz/chromium");
  const executablePath = await packaged.executablePath();
  return chromium.launch({ executablePath, args: [...packaged.args, ...flags] });
}
