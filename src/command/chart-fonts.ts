import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { lstat, mkdir, readFile, rename, writeFile } from "node:fs/promises";
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
 * Paths of the charts' fonts, which come compressed for the page (WOFF2), as TrueType files. They are
 * unpacked once into a temporary folder of the user's own, and found there by every later run: a run
 * that is killed leaves nothing behind that another would not use.
 */
export function chartFonts(): Promise<string[]> {
  unpacked ??= unpack();
  return unpacked;
}

async function unpack(): Promise<string[]> {
  const { resolve } = createRequire(import.meta.url);
  const folder = await ownFolder();
  const paths: string[] = [];
  for (const name of names) {
    const packed = await readFile(resolve(`@fontsource/source-sans-3/files/${name}.woff2`));
    const digest = createHash("sha256").update(packed).digest("hex").slice(0, 16);
    const path = join(folder, `${name}-${digest}.ttf`);
    if (!existsSync(path)) await writeWhole(path, await decompress(packed));
    paths.push(path);
  }
  return paths;
}

/** Where folders for passing things are shared, anyone could have put another's fonts there first. */
async function ownFolder(): Promise<string> {
  const user = process.getuid?.();
  const folder = join(tmpdir(), `holdfast-fonts-${user ?? "unpacked"}`);
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const found = await lstat(folder);
  if (found.isDirectory() && (user === undefined || found.uid === user)) return folder;
  throw new Error(`${folder} is not a folder of this user`);
}

/** Under its name there is never half a file, whenever the run ends. */
async function writeWhole(path: string, content: Uint8Array): Promise<void> {
  const part = `${path}.${process.pid}`;
  await writeFile(part, content);
  await rename(part, path);
}
