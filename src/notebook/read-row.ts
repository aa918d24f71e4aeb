import { isName } from "../formula/keywords.ts";
import type { Problem } from "../problem/problem.ts";
import { isWidthLine, readWidth } from "./cell-width.ts";
import { indentOf, type Line, type LineRange } from "./lines.ts";
import { isMinuted, type Minuted, readMinuted } from "./minuted.ts";
import type { Definition, Segment } from "./notebook-document.ts";

/** The definitions of one stretch of indented lines, in order. */
export interface RowReading {
  readonly definitions: readonly Definition[];
  readonly problems: readonly Problem[];
}

/** Whether an indented line reads `name = working`. */
export function isDefinition(text: string): boolean {
  return headOf(text) !== null;
}

/**
 * Reads definitions from lines that are indented by four columns or more and hold no empty line.
 * A line indented deeper than the definition above it continues it, or is a minuted line of it or its width.
 */
export function readRow(lines: readonly Line[], range: LineRange): RowReading {
  const definitions: Definition[] = [];
  const problems: Problem[] = [];
  for (let at = range.from; at < range.to; ) {
    const head = headOf(lines[at]!.text);
    if (head === null) {
      problems.push(notADefinition(lines[at]!.text, at));
      at += 1;
      continue;
    }
    const to = endOfDefinition(lines, { from: at, to: range.to });
    const reading = readDefinition(lines, { from: at, to }, head);
    definitions.push(reading.definition);
    problems.push(...reading.problems);
    at = to;
  }
  return { definitions, problems };
}

interface Head {
  readonly indent: string;
  readonly name: string;
  readonly equals: number;
  /** Where the working begins. */
  readonly start: number;
}

function headOf(text: string): Head | null {
  const match = /^([ \t]*)([^\s=]+)[ \t]*=(?!=)[ \t]*/.exec(text);
  const [head, indent = "", written = ""] = match ?? [];
  const name = written.normalize("NFC");
  if (head === undefined || !isName(name)) return null;
  return { indent, name, equals: head.lastIndexOf("="), start: head.length };
}

function endOfDefinition(lines: readonly Line[], { from, to }: LineRange): number {
  const depth = indentOf(lines[from]!.text).columns;
  let end = from + 1;
  while (end < to && indentOf(lines[end]!.text).columns > depth) end += 1;
  return end;
}

function readDefinition(
  lines: readonly Line[],
  range: LineRange,
  head: Head,
): { readonly definition: Definition; readonly problems: readonly Problem[] } {
  const depth = indentOf(lines[range.from]!.text).columns + 2;
  const segments: Segment[] = [segmentOf(lines, range.from, head.start)];
  const minuted: Minuted[] = [];
  const problems: Problem[] = [];
  let width: { readonly columns?: number } = {};
  for (let at = range.from + 1; at < range.to; at++) {
    const { text } = lines[at]!;
    if (isWidthLine(text)) {
      const reading = readWidth(text, at);
      if ("columns" in reading) width = reading;
      else problems.push(reading.problem);
    } else if (isMinuted(text)) {
      const reading = readMinuted(text, at);
      if (reading.ok) minuted.push(reading.minuted);
      else problems.push(reading.problem);
    } else {
      segments.push(segmentOf(lines, at, indentUpTo(text, depth)));
    }
  }
  const told = segments.length > 1 && isEmpty(segments[0]!) ? segments.slice(1) : segments;
  const working = told.map(({ line, start, end }) => lines[line]!.text.slice(start, end));
  const { name, indent, equals } = head;
  const definition = { name, working: working.join("\n"), lines: range, indent, equals };
  return { definition: { ...definition, segments: told, minuted, ...width }, problems };
}

function segmentOf(lines: readonly Line[], line: number, start: number): Segment {
  const length = lines[line]!.text.replace(/[ \t]+$/, "").length;
  return { line, start: Math.min(start, length), end: length };
}

/** Characters of white space that fill `depth` columns, or fewer where there are fewer. */
function indentUpTo(text: string, depth: number): number {
  let length = 0;
  while (length < text.length && /[ \t]/.test(text[length]!)) {
    if (indentOf(text.slice(0, length)).columns >= depth) break;
    length += 1;
  }
  return length;
}

function isEmpty({ start, end }: Segment): boolean {
  return start >= end;
}

function notADefinition(text: string, at: number): Problem {
  const written = /^[ \t]*(.*?)[ \t]*=(?!=)/.exec(text)?.[1];
  return {
    code: "not-a-definition",
    severity: "query",
    place: { line: at + 1, column: indentOf(text).length + 1 },
    message: "This indented line is not a definition, so it is kept as text and not worked out.",
    found: text.trim(),
    expected: "name = working",
    remedy:
      written === undefined || isName(written)
        ? "write a name and = before it; indent it deeper if it continues the line above; " +
          "put text between lines of ``` instead"
        : "name the cell with letters, digits and underscores, beginning with a letter, and " +
          "with no word of the language such as and, or, is",
  };
}
