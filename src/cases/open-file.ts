import type { Problem } from "../problem/problem.ts";
import type { FileFacts } from "./case-reading.ts";
import { type Decoded, decode } from "./decode.ts";
import { delimiterOf } from "./delimiter.ts";
import type { ProgramFormat } from "./program-format.ts";

export interface CaseFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Where the bytes are the text of a sheet: the workbook that it is from. */
  readonly workbook?: FromWorkbook;
}

/** What is known of a workbook besides the rows of the sheet that is read. */
export interface FromWorkbook {
  /** Size of the workbook. */
  readonly bytes: number;
  /** Its SHA-256 in hexadecimal, where that was worked out. */
  readonly sha256?: string;
  /** The sheet that is read; absent where none can be. */
  readonly sheet?: string;
  /** Names of all sheets, in their order. */
  readonly sheets: readonly string[];
  /** What is to be said of it when the file is read. */
  readonly problems: readonly Problem[];
}

/** A file as text, with what is known of it; no text where it holds none that can be read. */
export interface OpenedFile {
  readonly facts: FileFacts;
  readonly text?: string;
  readonly problems: readonly Problem[];
}

/** Opens a file: its encoding, its delimiter and its text. */
export function openFile(file: CaseFile): OpenedFile {
  const { workbook } = file;
  return workbook === undefined ? openText(file) : openSheet(file, workbook);
}

function openSheet(file: CaseFile, { bytes, sheet, sheets, problems }: FromWorkbook): OpenedFile {
  const about = { bytes, encoding: "workbook", sheets, ...(sheet !== undefined && { sheet }) };
  if (sheet === undefined) {
    return { facts: { name: file.name, delimiter: ",", ...about }, problems };
  }
  const opened = openText(file);
  return {
    ...opened,
    facts: { ...opened.facts, ...about },
    problems: [...problems, ...opened.problems],
  };
}

function openText(file: CaseFile): OpenedFile {
  const decoded = decode(file.bytes);
  if (!decoded.ok) {
    const facts = { name: file.name, bytes: file.bytes.length, encoding: "not text" };
    const problems = [notText(file.name, decoded)];
    return { facts: { ...facts, delimiter: "," }, problems };
  }
  const { text, delimiter } = withoutDelimiterLine(decoded.text);
  const facts: FileFacts = {
    name: file.name,
    bytes: file.bytes.length,
    encoding: decoded.encoding,
    delimiter: delimiter ?? delimiterOf(text),
  };
  if (text.trim() === "") return { facts, problems: [empty(file.name)] };
  return { facts, text, problems: encodingProblems(file.name, decoded) };
}

/**
 * Some spreadsheets write the delimiter on a first line of its own ("sep=;"). The line is emptied,
 * not taken out, so that line numbers stay.
 */
function withoutDelimiterLine(text: string): {
  readonly text: string;
  readonly delimiter?: FileFacts["delimiter"];
} {
  const line = /^"?sep=([,;\t|])"?(?=\r|\n|$)/i.exec(text);
  if (line === null) return { text };
  return { text: text.slice(line[0].length), delimiter: line[1] as FileFacts["delimiter"] };
}

function empty(file: string): Problem {
  return {
    code: "file-empty",
    severity: "stop",
    place: { file },
    message: "this file holds nothing.",
    expected: "a line of headings and a row for each operation",
    remedy: "save the table again as CSV",
  };
}

function notText(file: string, { looksLike, isWorkbook }: ProgramFormat): Problem {
  const about = { severity: "stop", place: { file }, found: looksLike } as const;
  if (isWorkbook) {
    return {
      ...about,
      code: "file-is-workbook",
      message: "this file is a workbook that cannot be read as it is.",
      expected: "a workbook (.xlsx) without a password, or a text file with delimiters (CSV)",
      remedy:
        "open it and save it as .xlsx without a password, or the sheet with a row for each operation as CSV in UTF-8",
    };
  }
  return {
    ...about,
    code: "file-not-text",
    message: "this file is not text, so that no rows can be read from it.",
    expected: "a text file with delimiters (CSV), or a workbook (.xlsx)",
    remedy: "open it in the program it comes from and save the table as CSV, in UTF-8",
  };
}

function encodingProblems(file: string, decoded: Extract<Decoded, { ok: true }>): Problem[] {
  if (decoded.encoding === "Windows-1252") {
    return [
      {
        code: "encoding-not-utf-8",
        severity: "note",
        place: { file },
        message: "this file is not in UTF-8; it was read as Windows-1252.",
        remedy: "check letters with accents, or save the table as CSV in UTF-8",
      },
    ];
  }
  if (decoded.broken === 0) return [];
  return [
    {
      code: "characters-broken",
      severity: "query",
      place: { file },
      message: `characters that could not be read (${decoded.broken}) stand as \ufffd.`,
      expected: "one encoding in the whole file",
      remedy: "save the table again as CSV in UTF-8",
    },
  ];
}
