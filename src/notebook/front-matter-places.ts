import type { Problem } from "../problem/problem.ts";
import type { Line, LineRange } from "./lines.ts";
import type { YamlNode } from "./yaml-door.ts";

/** The text between the marks of the front matter, and where its offsets lie in the file. */
export interface FrontMatterPlaces {
  readonly text: string;
  /** Index of the line and offset in it, both from 0. */
  at(offset: number): { readonly line: number; readonly column: number };
  excerpt(node: YamlNode): string;
  /** The whole line that an offset lies in, trimmed. */
  lineAt(offset: number): string;
  /** A problem that stops the notebook, at an offset. */
  problem(code: string, offset: number, message: string): Problem;
  /** The problem of a value that is not what `expected` says. */
  wrongKind(node: YamlNode, expected: string): Problem;
}

export function placesIn(lines: readonly Line[], { from, to }: LineRange): FrontMatterPlaces {
  const texts = lines.slice(from, Math.max(from, to)).map((line) => line.text);
  const text = texts.join("\n");
  const at = (offset: number) => {
    const before = text.slice(0, offset).split("\n");
    return { line: from + before.length - 1, column: before.at(-1)!.length };
  };
  const excerpt = ({ start, end }: YamlNode) => text.slice(start, end).trim();
  const lineAt = (offset: number) => (texts[at(offset).line - from] ?? "").trim();
  const problem = (code: string, offset: number, message: string): Problem => {
    const { line, column } = at(offset);
    const place = { line: line + 1, column: column + 1 };
    return { code, severity: "stop", place, message };
  };
  const wrongKind = (node: YamlNode, expected: string): Problem => ({
    ...problem("wrong-kind", node.start, "This value of the front matter is of the wrong kind."),
    found: node.type === "other" ? node.what : excerpt(node),
    expected,
  });
  return { text, at, excerpt, lineAt, problem, wrongKind };
}
