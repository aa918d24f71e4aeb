import type { Problem } from "../problem/problem.ts";
import {
  closesFence,
  fenceIn,
  headingIn,
  htmlEnd,
  isListItem,
  isQuote,
  isRule,
  underlineLevel,
} from "./block-starts.ts";
import { indentOf, isBlank, type Line, type LineRange } from "./lines.ts";
import type { Block, Prose, ProseForm, Row } from "./notebook-document.ts";
import { isDefinition, readRow } from "./read-row.ts";

/** Cells that fit side by side on the sheet. */
export const mostCellsInRow = 4;

export interface BlocksReading {
  readonly blocks: readonly Block[];
  readonly problems: readonly Problem[];
}

/**
 * Reads the lines from `from` on as a CommonMark document, in which the definitions are the
 * indented code blocks that begin with `name =`. Everything else is prose. Never throws.
 */
export function readBlocks(lines: readonly Line[], from: number): BlocksReading {
  const reading: Reading = { lines, blocks: [], problems: [], inList: false };
  for (let at = from; at < lines.length; ) at = readBlockAt(reading, at);
  return reading;
}

interface Reading {
  readonly lines: readonly Line[];
  readonly blocks: Block[];
  readonly problems: Problem[];
  /** Whether what is indented now belongs to a list above. */
  inList: boolean;
}

/** Reads the block that begins at this line and gives the index of the line behind it. */
function readBlockAt(reading: Reading, at: number): number {
  const text = textAt(reading, at);
  if (isBlank(text)) return at + 1;
  const depth = indentOf(text).columns;
  const fence = fenceIn(text, reading.inList);
  if (depth < (reading.inList ? 2 : 4)) reading.inList = isListItem(text) && !isRule(text);
  if (fence !== null) return addProse(reading, "code", fencedLines(reading, at, fence));
  if (depth >= 4) return readIndented(reading, at);
  const end = htmlEnd(text, false);
  if (end !== null) return addProse(reading, "html", htmlLines(reading, at, end));
  const heading = headingIn(text);
  if (heading !== null) {
    reading.blocks.push({ type: "heading", ...heading, lines: { from: at, to: at + 1 } });
    return at + 1;
  }
  if (isRule(text)) return addProse(reading, "rule", { from: at, to: at + 1 });
  return readParagraph(reading, at);
}

function fencedLines({ lines, inList }: Reading, from: number, fence: string): LineRange {
  let to = from + 1;
  while (to < lines.length && !closesFence(lines[to]!.text, fence, inList)) to += 1;
  return { from, to: Math.min(to + 1, lines.length) };
}

function htmlLines({ lines }: Reading, from: number, end: RegExp): LineRange {
  let to = from;
  while (to < lines.length && !end.test(lines[to]!.text)) to += 1;
  const endsOnBlank = end.test("");
  return { from, to: Math.min(endsOnBlank ? to : to + 1, lines.length) };
}

/** Definitions, text of a list, or code. */
function readIndented(reading: Reading, from: number): number {
  let to = from;
  while (to < reading.lines.length && isIndented(textAt(reading, to))) to += 1;
  if (!isDefinition(textAt(reading, from)) && reading.inList) {
    return addProse(reading, "list", { from, to });
  }
  const row = readRow(reading.lines, { from, to });
  reading.problems.push(...row.problems);
  if (row.definitions.length === 0) return addProse(reading, "code", { from, to });
  if (reading.inList) reading.problems.push(underList(textAt(reading, from), from));
  reading.inList = false;
  addRows(reading, row.definitions);
  return to;
}

/** Definitions of one stretch as rows of at most four. */
function addRows(reading: Reading, definitions: Row["definitions"]): void {
  for (let first = 0; first < definitions.length; first += mostCellsInRow) {
    const some = definitions.slice(first, first + mostCellsInRow);
    const lines = { from: some[0]!.lines.from, to: some.at(-1)!.lines.to };
    if (first > 0) reading.problems.push(rowTooLong(some[0]!.name, lines.from));
    reading.blocks.push({ type: "row", definitions: some, lines });
  }
}

function readParagraph(reading: Reading, from: number): number {
  const form = formOf(textAt(reading, from));
  let to = from + 1;
  for (; to < reading.lines.length; to++) {
    const text = textAt(reading, to);
    const level = form === "paragraph" ? underlineLevel(text) : null;
    if (level !== null) return addUnderlined(reading, { from, to: to + 1 }, level);
    if (endsParagraph(text, form)) break;
    if (isIndented(text) && isDefinition(text)) reading.problems.push(noEmptyLine(text, to));
  }
  return addProse(reading, form, { from, to });
}

function formOf(text: string): ProseForm {
  if (isListItem(text)) return "list";
  return isQuote(text) ? "quote" : "paragraph";
}

function endsParagraph(text: string, form: ProseForm): boolean {
  if (isBlank(text) || headingIn(text) !== null || isRule(text)) return true;
  if (fenceIn(text, form === "list") !== null || htmlEnd(text, true) !== null) return true;
  return form !== formOf(text) && formOf(text) !== "paragraph";
}

function addUnderlined(reading: Reading, lines: LineRange, level: 1 | 2): number {
  const text = proseText(reading, { from: lines.from, to: lines.to - 1 }).trim();
  reading.blocks.push({ type: "heading", level, text, lines });
  return lines.to;
}

function addProse(reading: Reading, form: ProseForm, lines: LineRange): number {
  const prose: Prose = { type: "prose", form, text: proseText(reading, lines), lines };
  reading.blocks.push(prose);
  return lines.to;
}

function proseText({ lines }: Reading, { from, to }: LineRange): string {
  return lines
    .slice(from, to)
    .map((line) => line.text)
    .join("\n");
}

function textAt({ lines }: Reading, at: number): string {
  return lines[at]!.text;
}

function isIndented(text: string): boolean {
  return !isBlank(text) && indentOf(text).columns >= 4;
}

function rowTooLong(name: string, at: number): Problem {
  return {
    code: "row-too-long",
    severity: "query",
    place: { line: at + 1, cell: name },
    message: `A row of the sheet holds at most ${mostCellsInRow} cells, so ${name} begins another.`,
    expected: `one to ${mostCellsInRow} definitions without an empty line between them`,
    remedy: "put an empty line where the next row should begin",
  };
}

function noEmptyLine(text: string, at: number): Problem {
  return {
    code: "no-empty-line-before",
    severity: "query",
    place: { line: at + 1, column: indentOf(text).length + 1 },
    message: "This line looks like a definition but belongs to the prose above it.",
    found: text.trim(),
    expected: "an empty line before a definition",
    remedy: "put an empty line between the prose and the definition",
  };
}

function underList(text: string, at: number): Problem {
  return {
    code: "definition-under-list",
    severity: "note",
    place: { line: at + 1, column: indentOf(text).length + 1 },
    message:
      "This definition stands directly under a list: the sheet reads it, but another viewer " +
      "shows it as text of the list.",
    found: text.trim(),
    remedy: "put a line of prose or a heading between the list and the definition",
  };
}
