import type { Problem } from "../problem/problem.ts";
import type { FileFacts } from "./case-reading.ts";
import { type Decoded, decode } from "./decode.ts";
import { delimiterOf } from "./delimiter.ts";
import type { ProgramFormat } from "./program-format.ts";

export interface CaseFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A file as text, with what is known of it; no text where it holds none that can be read. */
export interface OpenedFile {
  readonly facts: FileFacts;
  readonly text?: string;
  readonly problems: readonly Problem[];
}

/** Opens a file: its encoding, its delimiter and its text. */
export function openFile(file: CaseFile): OpenedFile {
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
  const expected = "a text file with delimiters (CSV)";
  if (isWorkbook) {
    return {
      ...about,
      code: "file-is-workbook",
      message: "this file is a workbook; rows are read from one sheet of it, saved as CSV.",
      expected,
      remedy:
        "open it, go to the sheet with a row for each operation, and save that sheet as CSV in UTF-8",
    };
  }
  return {
    ...about,
    code: "file-not-text",
    message: "this file is not text, so that no rows can be read from it.",
    expected,
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
