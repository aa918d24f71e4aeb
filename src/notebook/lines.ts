/** One line of a text with the ending it was written with; only the last may have none. */
export interface Line {
  readonly text: string;
  readonly ending: Ending;
}

export type Ending = "\n" | "\r\n" | "\r" | "";

/** Lines by index from 0, `to` exclusive. */
export interface LineRange {
  readonly from: number;
  readonly to: number;
}

/** The text as lines, ended as CommonMark ends them. `joinLines` is its exact inverse. */
export function splitLines(text: string): Line[] {
  const lines: Line[] = [];
  const endings = /\r\n|\n|\r/g;
  let start = 0;
  for (let match = endings.exec(text); match !== null; match = endings.exec(text)) {
    lines.push({ text: text.slice(start, match.index), ending: match[0] as Ending });
    start = endings.lastIndex;
  }
  if (start < text.length) lines.push({ text: text.slice(start), ending: "" });
  return lines;
}

/** The lines as one text, endings as they were. */
export function joinLines(lines: readonly Line[]): string {
  return lines.map((line) => line.text + line.ending).join("");
}

/** Nothing but spaces and tabs. */
export function isBlank(text: string): boolean {
  return /^[ \t]*$/.test(text);
}

/** How deep a line is indented: columns (a tab reaches the next multiple of 4) and characters. */
export function indentOf(text: string): { readonly columns: number; readonly length: number } {
  let columns = 0;
  let length = 0;
  for (const character of text) {
    if (character === " ") columns += 1;
    else if (character === "\t") columns += 4 - (columns % 4);
    else break;
    length += 1;
  }
  return { columns, length };
}

/** A stretch of lines to be put in place of another. */
export interface Splice {
  readonly at: number;
  readonly remove: number;
  readonly insert: readonly string[];
}

/**
 * The lines with `remove` of them at `at` replaced. New lines end as their neighbour does; a
 * text without a final line ending keeps having none.
 */
export function spliceLines(lines: readonly Line[], { at, remove, insert }: Splice): Line[] {
  const ending = endingNear(lines, at);
  const open = lines.at(-1)?.ending === "";
  const joined = [
    ...lines.slice(0, at),
    ...insert.map((text) => ({ text, ending })),
    ...lines.slice(at + remove),
  ];
  return joined.map((line, index) => {
    if (index < joined.length - 1) return line.ending === "" ? { ...line, ending } : line;
    return open ? { ...line, ending: "" as const } : line;
  });
}

function endingNear(lines: readonly Line[], at: number): Ending {
  const near = [lines[at - 1], lines[at], lines[0]].find((line) => (line?.ending ?? "") !== "");
  return near?.ending ?? "\n";
}
