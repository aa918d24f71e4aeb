import { sentenceText } from "../../questions/answer.ts";
import type { BlockView, CellView } from "../protocol.ts";

/** Something found on the sheet, with a little of the text around it. */
export interface Found {
  /** The block of the notebook, counted from 0. */
  readonly block: number;
  /** The cell, where it is in one. */
  readonly cell?: string;
  readonly where: "name" | "working" | "answer" | "text";
  readonly excerpt: Excerpt;
}

export interface Excerpt {
  readonly before: string;
  readonly hit: string;
  readonly after: string;
}

/** Characters shown on either side of what was found. */
const around = 36;

/**
 * Where a text stands in names, workings, answers and prose, in reading order, whatever its case
 * and its white space; at most once in each working and each answer.
 */
export function findInSheet(
  wanted: string,
  blocks: readonly BlockView[],
  cells: ReadonlyMap<string, CellView>,
): readonly Found[] {
  const text = folded(wanted).trim();
  if (text === "") return [];
  return blocks.flatMap((block, i): readonly Found[] => {
    if (block.type !== "row") return foundIn(text, i, [["text", block.text]]);
    return block.cells.flatMap((name) => {
      const view = cells.get(name);
      return foundIn(text, i, view === undefined ? [["name", name]] : textsOf(view)).map(
        (found) => ({ ...found, cell: name }),
      );
    });
  });
}

type Texts = readonly (readonly [Found["where"], string])[];

function foundIn(wanted: string, block: number, texts: Texts): readonly Found[] {
  return texts.flatMap(([where, text]) => {
    const line = text.replace(/\s+/g, " ");
    const at = folded(line).indexOf(wanted);
    return at < 0 ? [] : [{ block, where, excerpt: excerptOf(line, at, wanted.length) }];
  });
}

function textsOf({ name, working, answer, plain, problems, minuted }: CellView): Texts {
  const table = (answer?.table.rows ?? []).flatMap((row) => row.map(({ text }) => text));
  const told = minuted.map(({ date, text }) => `${date}: ${text}`);
  const said = [
    answer === undefined ? (plain ?? "") : sentenceText(answer.sentence),
    ...(answer?.cautions ?? []).map(({ text }) => text),
    ...problems.map(({ message }) => message),
    ...told,
    ...table,
  ];
  return [
    ["name", name],
    ["working", working],
    ["answer", said.join(" · ")],
  ];
}

function excerptOf(text: string, at: number, length: number): Excerpt {
  const from = Math.max(0, at - around);
  const to = Math.min(text.length, at + length + around);
  return {
    before: `${from > 0 ? "…" : ""}${text.slice(from, at)}`,
    hit: text.slice(at, at + length),
    after: `${text.slice(at + length, to)}${to < text.length ? "…" : ""}`,
  };
}

/** Lower case of the same length, so that a place in it is a place in the text. */
function folded(text: string): string {
  return [...text.replace(/\s+/g, " ")]
    .map((character) => {
      const lower = character.toLowerCase();
      return lower.length === character.length ? lower : character;
    })
    .join("");
}
