import { strToU8, zipSync } from "fflate";

/**
 * A small workbook written part by part (ISO/IEC 29500-1:2016, SpreadsheetML), for reading it
 * again. A text is a shared string; a number, or a day by its count, is written as its digits.
 */
export type Cell =
  | string
  | number
  | boolean
  | null
  | { readonly day: number }
  | { readonly raw: string };

export interface WorkbookOptions {
  /** Days counted from 1904-01-01 (18.17.4.1, `date1904`). */
  readonly since1904?: boolean;
  /** Ranges of merged cells of every sheet: "A1:C1". */
  readonly merged?: readonly string[];
}

export function workbookOf(
  sheets: Readonly<Record<string, readonly (readonly Cell[])[]>>,
  { since1904 = false, merged = [] }: WorkbookOptions = {},
): Uint8Array {
  const strings: string[] = [];
  const names = Object.keys(sheets);
  const parts: Record<string, string> = {
    "[Content_Types].xml": `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
    "xl/workbook.xml": `<workbook xmlns:r="${relations}"><workbookPr date1904="${since1904 ? 1 : 0}"/><sheets>${names
      .map((name, i) => `<sheet name="${escaped(name)}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`)
      .join("")}</sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships>${names
      .map((_, i) => relation(i + 1, "worksheet", `worksheets/sheet${i + 1}.xml`))
      .join(
        "",
      )}${relation(names.length + 1, "styles", "styles.xml")}${relation(names.length + 2, "sharedStrings", "sharedStrings.xml")}</Relationships>`,
    "xl/styles.xml": styles,
  };
  names.forEach((name, i) => {
    const rows = sheets[name]!.map((row, r) => rowOf(row, r + 1, strings)).join("");
    const ranges = merged.map((ref) => `<mergeCell ref="${ref}"/>`).join("");
    const merges = ranges === "" ? "" : `<mergeCells>${ranges}</mergeCells>`;
    parts[`xl/worksheets/sheet${i + 1}.xml`] =
      `<worksheet><sheetData>${rows}</sheetData>${merges}</worksheet>`;
  });
  parts["xl/sharedStrings.xml"] =
    `<sst>${strings.map((text) => `<si><t xml:space="preserve">${escaped(text)}</t></si>`).join("")}</sst>`;
  const bytes = Object.entries(parts).map(([path, text]) => [path, strToU8(text)] as const);
  return zipSync(Object.fromEntries(bytes), { mtime: new Date(1980, 1, 1) });
}

const relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

function relation(id: number, type: string, target: string): string {
  return `<Relationship Id="rId${id}" Type="${relations}/${type}" Target="${target}"/>`;
}

/** Style 1 is a day by the built-in format 14, style 2 one of its own, style 3 a time (20). */
const styles =
  `<styleSheet><numFmts count="1"><numFmt numFmtId="164" formatCode="dd/mm/yyyy;@"/></numFmts>` +
  `<cellXfs count="4"><xf numFmtId="0"/><xf numFmtId="14" applyNumberFormat="1"/>` +
  `<xf numFmtId="164" applyNumberFormat="1"/><xf numFmtId="20" applyNumberFormat="1"/></cellXfs></styleSheet>`;

function rowOf(row: readonly Cell[], number: number, strings: string[]): string {
  const cells = row.map((cell, i) => cellOf(cell, `${columnName(i)}${number}`, strings)).join("");
  return cells === "" ? "" : `<row r="${number}">${cells}</row>`;
}

function cellOf(cell: Cell, ref: string, strings: string[]): string {
  if (cell === null) return "";
  if (typeof cell === "boolean") return `<c r="${ref}" t="b"><v>${cell ? 1 : 0}</v></c>`;
  if (typeof cell === "number") return `<c r="${ref}"><v>${cell}</v></c>`;
  if (typeof cell === "string") {
    const at = strings.includes(cell) ? strings.indexOf(cell) : strings.push(cell) - 1;
    return `<c r="${ref}" t="s"><v>${at}</v></c>`;
  }
  if ("day" in cell) return `<c r="${ref}" s="2"><v>${cell.day}</v></c>`;
  return cell.raw.replace("<c", `<c r="${ref}"`);
}

function columnName(position: number): string {
  const letter = String.fromCharCode(65 + (position % 26));
  return position < 26 ? letter : `${columnName(Math.floor(position / 26) - 1)}${letter}`;
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");
}
