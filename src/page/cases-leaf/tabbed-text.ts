/** A line of texts parted by tabs, as other programs read it. A missing value is nothing. */
export function tabbedLine(texts: readonly string[]): string {
  return texts.map((text) => (text === "–" ? "" : text.replace(/[\t\r\n]+/g, " "))).join("\t");
}

/** A text, in quotes or not, and the sign behind it. */
const part = /("(?:[^"]|"")*"(?=[\t\r\n]|$)|[^\t\r\n]*)(\t|\r\n|\r|\n|$)/y;

/**
 * The texts of a table parted by tabs, from wherever it was copied; a last line end is none of its
 * own. A text in quotes may hold tabs and line ends, and its own quotes are doubled.
 */
export function textsIn(tabbed: string): readonly (readonly string[])[] {
  const lines: string[][] = [[]];
  part.lastIndex = 0;
  for (;;) {
    const [, text = "", sign = ""] = part.exec(tabbed) ?? [];
    lines.at(-1)?.push(unquoted(text).trim());
    if (sign === "\t") continue;
    if (part.lastIndex === tabbed.length) return lines;
    lines.push([]);
  }
}

function unquoted(text: string): string {
  const isQuoted = text.length > 1 && text.startsWith('"') && text.endsWith('"');
  return isQuoted ? text.slice(1, -1).replaceAll('""', '"') : text;
}
