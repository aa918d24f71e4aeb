import { type Run, readRuns } from "./prose-runs.ts";

/**
 * The part of CommonMark that is drawn: headings, paragraphs, lists, emphasis, code. All
 * else stands as it was written; the text of a link stands without its address. Nothing becomes
 * markup: whoever draws it makes texts of it.
 */
export type ProseBlock =
  | { readonly type: "paragraph"; readonly runs: readonly Run[] }
  | { readonly type: "heading"; readonly level: number; readonly runs: readonly Run[] }
  | { readonly type: "quote"; readonly runs: readonly Run[] }
  | {
      readonly type: "list";
      readonly ordered: boolean;
      readonly items: readonly (readonly Run[])[];
    };

const bullet = /^ {0,3}[-*+]\s+/;
const ordinal = /^ {0,3}\d{1,9}[.)]\s+/;
const heading = /^ {0,3}(#{1,6})\s+(.*?)\s*#*\s*$/;
const quote = /^ {0,3}>\s?/;

/** The blocks of a text, in order. */
export function readProse(text: string): readonly ProseBlock[] {
  return text
    .replace(/\r\n?/g, "\n")
    .split(/\n[ \t]*\n/)
    .map((chunk) => chunk.replace(/^\n+|\s+$/g, ""))
    .filter((chunk) => chunk !== "")
    .flatMap(readChunk);
}

function readChunk(chunk: string): readonly ProseBlock[] {
  const lines = chunk.split("\n");
  const first = lines[0] ?? "";
  const head = heading.exec(first);
  if (head !== null) {
    const rest = lines.slice(1).join("\n");
    const block = {
      type: "heading",
      level: head[1]?.length ?? 1,
      runs: readRuns(head[2] ?? ""),
    } as const;
    return rest === "" ? [block] : [block, ...readChunk(rest)];
  }
  if (bullet.test(first) || ordinal.test(first)) return [readList(lines)];
  if (quote.test(first)) {
    return [
      { type: "quote", runs: readRuns(joined(lines.map((line) => line.replace(quote, "")))) },
    ];
  }
  return [{ type: "paragraph", runs: readRuns(joined(lines)) }];
}

function readList(lines: readonly string[]): ProseBlock {
  const ordered = ordinal.test(lines[0] ?? "");
  const mark = ordered ? ordinal : bullet;
  const items: string[][] = [];
  for (const line of lines) {
    if (mark.test(line)) items.push([line.replace(mark, "")]);
    else items.at(-1)?.push(line);
  }
  return { type: "list", ordered, items: items.map((item) => readRuns(joined(item))) };
}

function joined(lines: readonly string[]): string {
  return lines.map((line) => line.trim()).join(" ");
}
