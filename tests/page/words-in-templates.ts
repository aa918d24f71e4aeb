import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** A literal word in what a template draws. */
export interface LiteralWord {
  readonly file: string;
  readonly text: string;
}

/** Texts in the templates of a folder's files that stand there literally, and not in the labels. */
export function wordsInTemplates(folder: string): readonly LiteralWord[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".ts") && !/(^|\/)labels/.test(file))
    .flatMap((file) =>
      literalTexts(readFileSync(join(folder, file), "utf8")).map((text) => ({ file, text })),
    );
}

/** The words that a source's `html` templates hold between tags, or as a name or title. */
export function literalTexts(source: string): readonly string[] {
  return templatesIn(source).flatMap((template) => {
    const named = [...template.matchAll(/\s(?:aria-label|title|placeholder|alt)="([^"]*)"/g)];
    const between = template.replace(/<!--[\s\S]*?-->/g, "").replace(/<[^>]*>/g, "\n");
    return [...named.map(([, text]) => text!), ...between.split("\n")]
      .map((text) => text.replaceAll(hole, "").trim())
      .filter((text) => /\p{L}{2}/u.test(text));
  });
}

/** Stands for what is put into a template. */
const hole = "\u0000";

/** The texts of all `html` templates, those within others among them, with holes. */
function templatesIn(source: string): readonly string[] {
  const found: string[] = [];
  for (const match of source.matchAll(/\bhtml`/g)) {
    found.push(templateFrom(source, match.index + match[0].length));
  }
  return found;
}

function templateFrom(source: string, start: number): string {
  let text = "";
  for (let at = start; source[at] !== "`" && at < source.length; at++) {
    if (source[at] === "\\") at++;
    else if (source[at] === "$" && source[at + 1] === "{") {
      at = endOfHole(source, at + 2);
      text += hole;
    } else text += source[at];
  }
  return text;
}

/** The place of the brace that closes a hole; templates within are stepped over. */
function endOfHole(source: string, start: number): number {
  let depth = 1;
  for (let at = start; at < source.length; at++) {
    const letter = source[at];
    if (letter === "`") at = endOfTemplate(source, at + 1);
    else if (letter === '"' || letter === "'") at = source.indexOf(letter, at + 1);
    else if (letter === "{") depth++;
    else if (letter === "}" && --depth === 0) return at;
  }
  return source.length;
}

function endOfTemplate(source: string, start: number): number {
  for (let at = start; at < source.length; at++) {
    if (source[at] === "\\") at++;
    else if (source[at] === "`") return at;
    else if (source[at] === "$" && source[at + 1] === "{") at = endOfHole(source, at + 2);
  }
  return source.length;
}
