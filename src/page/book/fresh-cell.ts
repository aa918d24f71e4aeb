import { isName } from "../../formula/keywords.ts";
import { cellNames } from "../desk/field-choices.ts";
import { type FormField, formOfWorking, withField } from "../desk/working-form.ts";
import type { BookState } from "../host/book-state.ts";
import type { WordView } from "../protocol.ts";

/** The stem, or the stem with the first number from 2 that makes it new. */
export function freshName(stem: string, taken: readonly string[]): string {
  if (!taken.includes(stem)) return stem;
  let number = 2;
  while (taken.includes(`${stem}_${number}`)) number++;
  return `${stem}_${number}`;
}

/**
 * The example of a word, asked of the cells that this notebook has. What can be left out is, but
 * for how the eyes are split: the defaults fit any notebook.
 */
export function startingWorking(word: WordView, book: Pick<BookState, "cells" | "words">): string {
  const example = word.example ?? `${word.name}()`;
  let working = example;
  for (const { name } of word.parameters) {
    const form = formOfWorking(working, book.words);
    const field = form?.fields.find(({ parameter }) => parameter.name === name);
    if (form === undefined || field === undefined || field.parameter.takes === "row") continue;
    const text = field.parameter.required ? requiredText(field, book) : "";
    working = withField(form, field, text);
  }
  return working;
}

/** The example's own text, or where that names no cell the first cell that fits. */
function requiredText({ parameter, text }: FormField, { cells }: Pick<BookState, "cells">): string {
  if (cells.has(text) || !isName(text)) return text;
  return cellNames(parameter, cells.values())[0] ?? text;
}
