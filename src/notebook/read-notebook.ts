import type { Problem } from "../problem/problem.ts";
import { readFrontMatter } from "./front-matter.ts";
import { type Line, splitLines } from "./lines.ts";
import { definitionsOf, type NotebookDocument } from "./notebook-document.ts";
import { readBlocks } from "./read-blocks.ts";

/**
 * Reads a notebook from its text. Never throws, and keeps every byte whatever the text is:
 * `writeNotebook` gives the same text back. Where a problem stops, the notebook must not be
 * opened; all others are listed and the rest is read.
 */
export function readNotebook(
  text: string,
  file?: string,
): { readonly notebook: NotebookDocument; readonly problems: readonly Problem[] } {
  const notebook = notebookOfLines(splitLines(text), file);
  return { notebook, problems: notebook.problems };
}

/** The notebook that these lines are. */
export function notebookOfLines(lines: readonly Line[], file?: string): NotebookDocument {
  const { front, problems: frontProblems } = readFrontMatter(lines);
  const { blocks, problems: blockProblems } = readBlocks(lines, front.lines.to);
  const named = file === undefined ? {} : { file };
  const notebook = { ...named, lines, front, blocks, problems: [] };
  const problems = [...frontProblems, ...blockProblems, ...namesTwice(notebook)];
  return { ...notebook, problems: problems.map((problem) => inFile(problem, file)) };
}

function* namesTwice(notebook: NotebookDocument): Iterable<Problem> {
  const firstLines = new Map<string, number>();
  for (const { name, lines, indent } of definitionsOf(notebook)) {
    const line = lines.from + 1;
    const first = firstLines.get(name);
    if (first === undefined) firstLines.set(name, line);
    else {
      yield {
        code: "name-twice",
        severity: "query",
        place: { cell: name, line, column: indent.length + 1 },
        message: `The name ${name} is written twice, on line ${first} and on line ${line}.`,
        found: name,
        expected: "one definition a name",
        remedy: "rename one of the two, or take it out",
      };
    }
  }
}

function inFile(problem: Problem, file: string | undefined): Problem {
  return file === undefined ? problem : { ...problem, place: { file, ...problem.place } };
}
