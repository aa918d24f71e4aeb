import type { Answer } from "../../questions/answer.ts";
import type { BookState } from "../host/book-state.ts";
import { labels } from "../labels.ts";
import type { CellView } from "../protocol.ts";

/** Workings that ask about people name their column, the reader's own code, or one as a text. */
function isAsking(working: string, people: readonly string[]): boolean {
  if (/\b(surgeon|supervisor|mine)\b/.test(working)) return true;
  return people.some((code) => working.includes(JSON.stringify(code)));
}

/** Writes a text for the room. */
export type Mask = (text: string) => string;

/** Puts numbers in place of codes of people, the same number for the same person in every text. */
export function maskOf(people: readonly string[]): Mask {
  if (people.length === 0) return (text) => text;
  const names = new Map(people.map((code, i) => [code, labels.person(i + 1)]));
  return (text) => names.get(text) ?? inText(text, names);
}

/**
 * What was written for a room that sees numbers, with the codes that they stand for. A number that
 * stood in the text before, as it is kept, is no code.
 */
export function unmasked(written: string, kept: string, people: readonly string[]): string {
  // From the last: "person 12" holds "person 1".
  return people.reduceRight((text, code, i) => {
    const name = labels.person(i + 1);
    return kept.includes(name) ? text : text.replaceAll(name, code);
  }, written);
}

/** The codes of people that the room is not to see. */
export function peopleHidden({ codesShown, cases }: BookState): readonly string[] {
  return codesShown ? [] : (cases?.people ?? []);
}

/** The mask of a book: nobody's code is hidden where the reader asked to see them. */
export function maskOfBook(book: BookState): Mask {
  return maskOf(peopleHidden(book));
}

/** In the meeting the title tells no code either; on the other leaves the reader is alone. */
export function maskOfTitle(book: BookState): Mask {
  return book.leaf === "meeting" ? maskOfBook(book) : (text) => text;
}

/**
 * The answer with numbers in place of the codes of people. Only where the answer says that it is
 * about people, heads a column with them, or a working behind it asks about them: elsewhere "C" may
 * be a grade of PVR.
 */
export function withoutPeople(
  answer: Answer,
  workings: readonly string[],
  people: readonly string[],
): Answer {
  const isAbout =
    answer.people !== undefined ||
    answer.table.columns.some(({ label }) => /\b(surgeon|supervisor)\b/.test(label)) ||
    workings.some((each) => isAsking(each, people));
  if (people.length === 0 || !isAbout) return answer;
  return replaced(answer, maskOf(people)) as Answer;
}

/** The working of a cell and of all that feeds it: what they name may be shown by it. */
export function workingsBehind(name: string, cells: ReadonlyMap<string, CellView>): string[] {
  const found = new Set([name]);
  for (const each of found) for (const feed of cells.get(each)?.feedsOn ?? []) found.add(feed);
  return [...found].flatMap((each) => cells.get(each)?.working ?? []);
}

/** Plain data with every text replaced; keys and what opens stay. */
function replaced(value: unknown, mask: Mask): unknown {
  if (typeof value === "string") return mask(value);
  if (Array.isArray(value)) return value.map((item) => replaced(item, mask));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, held]) => [
      key,
      key === "pick" || key === "draw" || key === "code" ? held : replaced(held, mask),
    ]),
  );
}

/** Codes inside a longer text; a single letter only where it is no word, grade or statistic. */
function inText(text: string, names: ReadonlyMap<string, string>): string {
  return text.replace(/(?<![\p{L}\p{N}_])[\p{L}\p{N}_]+(?![\p{L}\p{N}_])/gu, (word, at: number) => {
    if (word.includes("_")) return inName(word, names);
    const name = names.get(word);
    if (name === undefined || (word.length === 1 && !isCode(text, at))) return word;
    return name;
  });
}

/** A name of a cell, such as `curve_E`. */
function inName(word: string, names: ReadonlyMap<string, string>): string {
  return word
    .split("_")
    .map((part) => names.get(part) ?? part)
    .join("_");
}

function isCode(text: string, at: number): boolean {
  const before = text.slice(0, at);
  const after = text.slice(at + 1);
  if (/(surgeon|supervisor|person|code)s?:?\s+[“"]?$/i.test(before)) return true;
  if (/(grade|grades|pvr|type|class|stage|plan|figure|table)\s+$/i.test(before)) return false;
  if (/^(-|\s+(statistic|index|test|value)\b)/.test(after) || /\d\s*$/.test(before)) return false;
  return !isArticle(text[at], before, after);
}

/** "A" at the beginning of a sentence, before a word. */
function isArticle(letter: string | undefined, before: string, after: string): boolean {
  return letter === "A" && /(^|[.:;!?>•-])\s*[“"(]?$/.test(before) && /^\s+\p{L}/u.test(after);
}
