import type { Answer } from "../../questions/answer.ts";
import { labels } from "../labels.ts";
import type { CellView } from "../protocol.ts";

/** Workings that ask about people name their column, the reader's own code, or one as a text. */
function isAsking(working: string, people: readonly string[]): boolean {
  if (/\b(surgeon|supervisor|mine)\b/.test(working)) return true;
  return people.some((code) => working.includes(JSON.stringify(code)));
}

/**
 * The answer with numbers in place of the codes of people, the same number for the same person in
 * every answer. Only where the answer says that it is about people or a working behind it asks about
 * them: elsewhere "C" may be a grade of PVR.
 */
export function withoutPeople(
  answer: Answer,
  workings: readonly string[],
  people: readonly string[],
): Answer {
  const isAbout = answer.people !== undefined || workings.some((each) => isAsking(each, people));
  if (people.length === 0 || !isAbout) return answer;
  const names = new Map(people.map((code, i) => [code, labels.person(i + 1)]));
  return replaced(answer, names) as Answer;
}

/** The working of a cell and of all that feeds it: what they name may be shown by it. */
export function workingsBehind(name: string, cells: ReadonlyMap<string, CellView>): string[] {
  const found = new Set([name]);
  for (const each of found) for (const feed of cells.get(each)?.feedsOn ?? []) found.add(feed);
  return [...found].flatMap((each) => cells.get(each)?.working ?? []);
}

/** Plain data with every text replaced; keys and what opens stay. */
function replaced(value: unknown, names: ReadonlyMap<string, string>): unknown {
  if (typeof value === "string") return names.get(value) ?? inText(value, names);
  if (Array.isArray(value)) return value.map((item) => replaced(item, names));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, held]) => [
      key,
      key === "pick" || key === "draw" || key === "code" ? held : replaced(held, names),
    ]),
  );
}

/** Codes inside a longer text; a single letter only where it cannot be a word of the sentence. */
function inText(text: string, names: ReadonlyMap<string, string>): string {
  return text.replace(/(?<![\p{L}\p{N}_])[\p{L}\p{N}_]+(?![\p{L}\p{N}_])/gu, (word, at: number) => {
    const name = names.get(word);
    if (name === undefined || (word.length === 1 && !isCode(text, at))) return word;
    return name;
  });
}

/** Behind "surgeon", or in a list: a comma, a bracket, "and", "or" or nothing at all follows. */
function isCode(text: string, at: number): boolean {
  const before = text.slice(0, at);
  const after = text.slice(at + 1);
  if (/(surgeon|supervisor|person|code)s?:?\s+[“"]?$/i.test(before)) return true;
  return /^(\s*[,;:.)”"]|\s+(and|or)\s|\s*$)/.test(after) && !/\d\s*$/.test(before);
}
