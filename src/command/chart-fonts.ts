import { rmSync } from "node:fs";
import { mkdtemp, readFile, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import decompress from "woff2-encoder/decompress";

/** The weights that texts of charts are drawn in, by the letters of a name of a group; Latin first. */
const names = ["latin", "latin-ext", "greek", "cyrillic"].flatMap((letters) =>
  [400, 600].map((weight) => `source-sans-3-${letters}-${weight}-normal`),
);

let unpacked: Promise<string[]> | undefined;

/**
 * Paths of the charts' fonts, which come compressed for the page (WOFF2), as TrueType files: unpacked
 * once a run into a temporary folder, which goes when the run ends.
 */
export function chartFonts(): Promise<string[]> {
  unpacked ??= unpack();
  return unpacked;
}

async function unpack(): Promise<string[]> {
  const { resolve } = createRequire(import.meta.url);
  const folder = await mkdtemp(join(tmpdir(), "holdfast-fonts-"));
  process.once("exit", () => rmSync(folder, { recursive: true, force: true }));
  const paths: string[] = [];
  for (const name of names) {
    const packed = await readFile(resolve(`@fontsource/source-sans-3/files/${name}.woff2`));
    const path = join(folder, `${name}.ttf`);
    await writeFile(path, await decompress(packed));
    paths.push(path);
  }
  return paths;
}
