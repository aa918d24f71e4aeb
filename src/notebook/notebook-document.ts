import type { Problem } from "../problem/problem.ts";
import type { FrontMatter } from "./front-matter.ts";
import type { Line, LineRange } from "./lines.ts";
import type { Minuted } from "./minuted.ts";

/**
 * A notebook as it was read: its lines, exactly as they stand in the file, and what they mean.
 * Never changed in place; every edit gives another.
 */
export interface NotebookDocument {
  readonly file?: string;
  readonly lines: readonly Line[];
  readonly front: FrontMatter;
  /** In reading order, which is the order on the sheet. */
  readonly blocks: readonly Block[];
  readonly problems: readonly Problem[];
}

export type Block = Heading | Prose | Row;

export interface Heading {
  readonly type: "heading";
  readonly level: number;
  readonly text: string;
  readonly lines: LineRange;
}

/** Text that is kept and shown, never worked out. `text` is as written, in CommonMark. */
export interface Prose {
  readonly type: "prose";
  readonly form: ProseForm;
  readonly text: string;
  readonly lines: LineRange;
}

export type ProseForm = "paragraph" | "list" | "quote" | "code" | "html" | "rule";

/** One to four cells that stand side by side on the sheet. */
export interface Row {
  readonly type: "row";
  readonly definitions: readonly Definition[];
  readonly lines: LineRange;
}

/** One `name = working`, with the lines that continue it and what was minuted of it. */
export interface Definition {
  readonly name: string;
  /** Without its indentation; lines joined by a line feed. */
  readonly working: string;
  /** Its own lines, continuations and minuted lines included. */
  readonly lines: LineRange;
  /** The white space before the name. */
  readonly indent: string;
  /** Offset of the `=` in its first line. */
  readonly equals: number;
  /** Where each line of `working` stands in the file. */
  readonly segments: readonly Segment[];
  readonly minuted: readonly Minuted[];
  /** How many of the twelve columns of its row it takes, where that is written. */
  readonly columns?: number;
}

/** A stretch of one line: the line's index from 0 and offsets in its text, end exclusive. */
export interface Segment {
  readonly line: number;
  readonly start: number;
  readonly end: number;
}

/** Every definition in reading order; a name that was written twice comes twice. */
export function definitionsOf(notebook: NotebookDocument): Definition[] {
  return notebook.blocks.flatMap((block) => (block.type === "row" ? block.definitions : []));
}

/** The first definition of that name. */
export function definitionNamed(notebook: NotebookDocument, name: string): Definition | undefined {
  return definitionsOf(notebook).find((definition) => definition.name === name);
}

/** The title in the front matter, or else the first heading, or else "Notebook". */
export function titleOf(notebook: NotebookDocument): string {
  if (notebook.front.title !== undefined) return notebook.front.title;
  const heading = notebook.blocks.find((block) => block.type === "heading");
  return heading?.text || "Notebook";
}

/** Where an offset in the text of a working lies in the file: line and character from 1. */
export function placeInFile(
  definition: Definition,
  offset: number,
): { readonly line: number; readonly column: number } {
  let rest = offset;
  for (const segment of definition.segments) {
    const length = segment.end - segment.start;
    if (rest <= length) return { line: segment.line + 1, column: segment.start + rest + 1 };
    rest -= length + 1;
  }
  const last = definition.segments.at(-1);
  return { line: (last?.line ?? definition.lines.from) + 1, column: (last?.end ?? 0) + 1 };
}
