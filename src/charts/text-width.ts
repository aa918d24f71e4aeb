import { regularWidths, semiboldWidths, type WidthRun } from "./font-widths.ts";

export interface TextStyle {
  /** Font size, pixels. */
  readonly size: number;
  /** CSS weight; from 500 on, the semibold widths are used. */
  readonly weight?: number;
}

export interface TextRoom extends TextStyle {
  /** Pixels. */
  readonly width: number;
}

const regular = widthTable(regularWidths);
const semibold = widthTable(semiboldWidths);

/**
 * Width in pixels of a text in the bundled sans, the sum of its characters' advances: the same
 * number in the browser and outside it. Kerning is left out, so that a text is rather narrower than said.
 */
export function textWidth(text: string, style: TextStyle): number {
  const table = (style.weight ?? 400) >= 500 ? semibold : regular;
  let thousandths = 0;
  for (const character of text) thousandths += table.get(character) ?? unlisted(character);
  return (thousandths * style.size) / 1000;
}

/** The text, or as much of its beginning as fits in the room, ending in an ellipsis. */
export function fitText(text: string, room: TextRoom): string {
  if (textWidth(text, room) <= room.width) return text;
  const characters = Array.from(text);
  while (characters.length > 0 && textWidth(`${characters.join("")}…`, room) > room.width) {
    characters.pop();
  }
  return `${characters.join("").trimEnd()}…`;
}

/** The text broken between words into at most `lines` lines; what does not fit is cut. */
export function wrapText(text: string, lines: number, room: TextRoom): readonly string[] {
  const words = text.split(" ");
  const done: string[] = [];
  while (words.length > 0 && done.length < lines - 1) done.push(takeLine(words, room));
  if (words.length > 0) done.push(fitText(words.join(" "), room));
  return done;
}

/** Takes from the front of `words` what fits on one line, at least one word or a part of it. */
function takeLine(words: string[], room: TextRoom): string {
  let line = words.shift() ?? "";
  if (textWidth(line, room) > room.width) {
    const part = longestStart(line, room);
    words.unshift(line.slice(part.length));
    return part;
  }
  while (words.length > 0 && textWidth(`${line} ${words[0]}`, room) <= room.width) {
    line = `${line} ${words.shift()}`;
  }
  return line;
}

function longestStart(word: string, room: TextRoom): string {
  const [first = "", ...rest] = Array.from(word);
  let start = first;
  for (const character of rest) {
    if (textWidth(start + character, room) > room.width) break;
    start += character;
  }
  return start;
}

function widthTable(runs: readonly WidthRun[]): ReadonlyMap<string, number> {
  return new Map(
    runs.flatMap(({ first, widths }) =>
      widths.map((width, i) => [String.fromCodePoint(first + i), width] as const),
    ),
  );
}

/** A guess for characters that another font will draw: none for marks, an em for wide scripts. */
function unlisted(character: string): number {
  if (/[\p{M}\p{Cf}]/u.test(character)) return 0;
  const wide =
    /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}]|\p{Emoji_Presentation}/u;
  return wide.test(character) ? 1000 : 600;
}
