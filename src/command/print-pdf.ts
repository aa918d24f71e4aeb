import { execFile } from "node:child_process";
import { existsSync, rmSync } from "node:fs";
import { copyFile, mkdtemp, rename, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { promisify } from "node:util";

/** Sizes of paper as CSS knows them. */
export const papers = ["A4", "Letter"] as const;
export type Paper = (typeof papers)[number];

export interface ToPrint {
  /** A page that needs nothing else. */
  readonly html: string;
  readonly into: string;
  readonly paper: Paper;
}

/** Where Chromium is: as the environment says, or where Debian puts it; undefined where it is not. */
export function chromiumPath(): string | undefined {
  const path = process.env.CHROMIUM ?? "/usr/bin/chromium";
  return existsSync(path) ? path : undefined;
}

/** What is said where there is none. */
export const noChromium =
  "--pdf needs Chromium: it is not at /usr/bin/chromium nor where the variable CHROMIUM says. " +
  "Without it, report.html can be printed from any browser.";

/** Prints a page to a PDF file by Chromium without a window. Gives back why it could not, if so. */
export async function printPdf(page: ToPrint): Promise<string | undefined> {
  const chromium = chromiumPath();
  if (chromium === undefined) return noChromium;
  const folder = await mkdtemp(join(tmpdir(), "holdfast-print-"));
  const putAway = () => rmSync(folder, { recursive: true, force: true });
  process.once("exit", putAway);
  try {
    const source = join(folder, "page.html");
    await writeFile(source, onPaper(page));
    const printed = join(folder, "printed.pdf");
    await finished(chromium, switches(folder, { ...page, source, into: printed }));
    if (!existsSync(printed)) return "Chromium wrote no PDF.";
    // Copied under another name first: what stood there before stays until the new one is whole.
    await copyFile(printed, `${page.into}.part`);
    await rename(`${page.into}.part`, page.into);
    return undefined;
  } catch (refusal) {
    const why = refusal instanceof Error ? refusal.message : String(refusal);
    return `Chromium could not print (${why}).`;
  } finally {
    process.off("exit", putAway);
    putAway();
  }
}

/** Prints the report beside its page, where a paper is asked for. */
export async function printReport(
  into: string,
  { page, files }: { readonly page: string; readonly files: readonly string[] },
  paper: Paper | undefined,
): Promise<{ readonly files: readonly string[]; readonly refusal?: string }> {
  if (paper === undefined) return { files };
  const refusal = await printPdf({ html: page, into: resolve(into, "report.pdf"), paper });
  return refusal === undefined ? { files: [...files, "report.pdf"] } : { files, refusal };
}

/** Runs the browser to its end, which comes at the latest when this process ends. */
async function finished(chromium: string, given: readonly string[]): Promise<void> {
  const running = promisify(execFile)(chromium, given, { timeout: 120_000 });
  const end = () => running.child.kill();
  process.once("exit", end);
  await running.finally(() => process.off("exit", end));
}

/** The size of the paper stands in the page's own style, which Chromium prints by. */
function onPaper({ html, paper }: ToPrint): string {
  return html.replace("</style>", `@page { size: ${paper}; }\n</style>`);
}

function switches(
  folder: string,
  { into, source }: { readonly into: string; readonly source: string },
): string[] {
  return [
    "--headless",
    "--disable-gpu",
    "--no-first-run",
    "--no-pdf-header-footer",
    `--user-data-dir=${join(folder, "profile")}`,
    // Chromium refuses its sandbox to the superuser, as whom containers run.
    ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
    `--print-to-pdf=${into}`,
    pathToFileURL(source).href,
  ];
}
