/** A program's own format, which holds no delimited text. */
export interface ProgramFormat {
  readonly looksLike: string;
  /** Whether it holds tables that its program can save as text. */
  readonly isWorkbook: boolean;
}

const starts: readonly (readonly [looksLike: string, start: readonly number[]])[] = [
  ["a PDF", [0x25, 0x50, 0x44, 0x46, 0x2d]],
  ["a compressed file", [0x1f, 0x8b]],
  ["a picture", [0x89, 0x50, 0x4e, 0x47]],
  ["a picture", [0xff, 0xd8, 0xff]],
];
const zip = [0x50, 0x4b, 0x03, 0x04];
/** The compound file that binary workbooks, and newer ones with a password, are kept in. */
const compound = [0xd0, 0xcf, 0x11, 0xe0];

/** The format that bytes begin as, or undefined where they may be text. */
export function programFormat(bytes: Uint8Array): ProgramFormat | undefined {
  if (startsWith(bytes, zip)) return zippedFormat(bytes);
  if (startsWith(bytes, compound)) {
    return { looksLike: "an old workbook (.xls), or one with a password", isWorkbook: true };
  }
  const looksLike = starts.find(([, start]) => startsWith(bytes, start))?.[0];
  return looksLike === undefined ? undefined : { looksLike, isWorkbook: false };
}

/** Whether bytes are a workbook (.xlsx) that can be opened: one without a password. */
export function isOpenWorkbook(bytes: Uint8Array): boolean {
  return startsWith(bytes, zip) && namesIn(bytes).includes("xl/workbook.xml");
}

/** The names of the files in a zip file stand in it as plain text (ECMA-376, part 2). */
function zippedFormat(bytes: Uint8Array): ProgramFormat {
  const text = namesIn(bytes);
  if (/xl\/workbook\.(xml|bin)/.test(text)) {
    const names = text.match(/xl\/worksheets\/[^/\0]+?\.(xml|bin)/g) ?? [];
    const sheets = new Set(names).size;
    const count = sheets > 1 ? ` with ${sheets} sheets` : "";
    return { looksLike: `a workbook (.xlsx)${count}`, isWorkbook: true };
  }
  const isOpenDocument = text.slice(0, 200).includes("opendocument.spreadsheet");
  if (isOpenDocument) return { looksLike: "a workbook (.ods)", isWorkbook: true };
  return { looksLike: "a zip file", isWorkbook: false };
}

function namesIn(zipped: Uint8Array): string {
  return new TextDecoder("latin1").decode(zipped);
}

export function startsWith(bytes: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, i) => bytes[i] === byte);
}
