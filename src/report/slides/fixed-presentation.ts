import { type NamedFile, textOf, unzipFiles, zipFiles } from "../files/zip-files.ts";

/**
 * A presentation without the day it was made on. Its writer also names parts in the content types
 * that are not there, and leaves out which row of a table is its head.
 */
export function fixedPresentation(presentation: Uint8Array): Uint8Array {
  const files = unzipFiles(presentation);
  const names = new Set(files.map(({ name }) => name));
  return zipFiles(
    files.map(({ name, content }): NamedFile => {
      if (!/\.xml$/.test(name)) return { name, content };
      return { name, content: fixedPart(name, textOf(content), names) };
    }),
  );
}

function fixedPart(name: string, text: string, names: ReadonlySet<string>): string {
  if (name === "docProps/core.xml") return withoutDays(text);
  if (name === "[Content_Types].xml") return withoutAbsentParts(text, names);
  return text.replaceAll("<a:tblPr/>", '<a:tblPr firstRow="1"/>');
}

function withoutAbsentParts(types: string, names: ReadonlySet<string>): string {
  return types.replace(/<Override PartName="\/([^"]*)"[^>]*\/>/g, (override, part: string) =>
    names.has(part) ? override : "",
  );
}

/** Both dates are optional in the core properties of the standard (ISO/IEC 29500-2). */
function withoutDays(core: string): string {
  return core.replace(/\s*<dcterms:(created|modified)[\s\S]*?<\/dcterms:\1>/g, "");
}
