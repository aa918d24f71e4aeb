import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";

export interface NamedFile {
  /** Its path inside the folder or the zip, with "/" between the parts. */
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** Without a zone it is read as local time, and a zip keeps local time: the same bytes anywhere. */
const sameDay = "1980-01-01T12:00:00";

/** A zip of the files in the order given; the same files give the same bytes, whatever the day. */
export function zipFiles(files: readonly NamedFile[]): Uint8Array {
  const entries = files.map(({ name, content }) => [name, bytesOf(content)] as const);
  return zipSync(Object.fromEntries(entries), { mtime: sameDay, level: 6 });
}

/** The files of a zip in its order, folders left out. */
export function unzipFiles(
  zip: Uint8Array,
): { readonly name: string; readonly content: Uint8Array }[] {
  return Object.entries(unzipSync(zip))
    .filter(([name]) => !name.endsWith("/"))
    .map(([name, content]) => ({ name, content }));
}

/** The bytes of a text are its UTF-8. */
export function bytesOf(content: string | Uint8Array): Uint8Array {
  return typeof content === "string" ? strToU8(content) : content;
}

export function textOf(content: Uint8Array): string {
  return strFromU8(content);
}
