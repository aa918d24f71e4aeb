import { kindInWords, kindsInWords } from "./kinds.ts";
import { callForm } from "./match-arguments.ts";
import { quoteText } from "./quote-text.ts";
import type { Parameter, Word } from "./vocabulary.ts";

/**
 * A word as plain text: how it is called, what it means, its arguments each on a line, and what
 * it is worth.
 *
 *     round(number, digits: …)
 *     a number rounded to so many decimals, halves away from zero
 *
 *       number  the number to round (a number)
 *       digits  decimals to keep (a number; left out: 0)
 *
 *     gives a number
 */
export function describeWord(word: Word): string {
  const names = word.parameters.map((parameter) => parameter.name.length);
  const width = Math.max(0, ...names);
  const lines = word.parameters.map(
    (parameter) => `  ${parameter.name.padEnd(width)}  ${describeParameter(parameter)}`,
  );
  const block = lines.length === 0 ? [] : [lines.join("\n"), ""];
  return [callForm(word), word.meaning, "", ...block, `gives ${given(word)}`].join("\n");
}

function describeParameter(parameter: Parameter): string {
  const { meaning, choices, whenLeftOut, repeated } = parameter;
  const facts = [
    parameter.takes === "row" ? "worked out for every row" : kindsInWords(parameter.kinds),
    ...(choices === undefined ? [] : [`one of ${choices.map(quoteText).join(", ")}`]),
    ...(repeated === true ? ["as many as wanted"] : []),
    ...(whenLeftOut === undefined ? [] : [`left out: ${whenLeftOut}`]),
    ...(parameter.required || whenLeftOut !== undefined ? [] : ["may be left out"]),
  ];
  return `${meaning} (${facts.join("; ")})`;
}

/** Things and descriptions as they stand, plain kinds in words. */
function given({ answers }: Word): string {
  return answers.includes(" ") ? answers : kindInWords(answers);
}
