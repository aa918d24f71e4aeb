import { dayNumber, dayText, isPossible, readDay } from "../calendar.ts";
import type { RowValue, Word } from "../vocabulary.ts";
import { optional, required } from "./parameters.ts";
import { type PlainWord, plainWord } from "./plain-word.ts";

/** Words over texts. Letters are compared exactly; `lower` makes a comparison blind to case. */
export const textWords: readonly Word[] = [
  oneText("lower", "a text in small letters", (text) => text.toLowerCase()),
  oneText("upper", "a text in capitals", (text) => text.toUpperCase()),
  oneText("trim", "a text without the space before and behind it", (text) => text.trim()),
  {
    name: "contains",
    meaning: "whether a text has another in it, or a list holds a text",
    parameters: [
      required("in", ["text", "list"], "the text or the list of texts to look in"),
      required("what", ["text"], "what to look for; in a list, a whole item"),
    ],
    answers: "truth" as const,
    items: ["text"] as const,
    apply: contains,
  },
  {
    name: "contains_any",
    meaning: "whether a list holds any of some texts",
    parameters: [
      required("in", ["list"], "the list of texts to look in"),
      required("what", ["list"], "the texts to look for, each a whole item"),
    ],
    answers: "truth" as const,
    items: ["text"] as const,
    apply: containsAny,
  },
  {
    name: "starts_with",
    meaning: "whether a text begins with another",
    parameters: [
      required("text", ["text"], "the text to look at"),
      required("start", ["text"], "how it should begin"),
    ],
    answers: "truth" as const,
    apply: (text: string, start: string) => text.startsWith(start),
  },
  {
    name: "ends_with",
    meaning: "whether a text ends with another",
    parameters: [
      required("text", ["text"], "the text to look at"),
      required("end", ["text"], "how it should end"),
    ],
    answers: "truth" as const,
    apply: (text: string, end: string) => text.endsWith(end),
  },
  {
    name: "joined",
    meaning: "two texts as one",
    parameters: [
      required("first", ["text"], "the first text"),
      required("second", ["text"], "the second text"),
      optional("with", ["text"], { meaning: "what stands between them", whenLeftOut: '" "' }),
    ],
    answers: "text" as const,
    defaults: [null, null, " "],
    apply: (first: string, second: string, between: string) => `${first}${between}${second}`,
  },
  conversionOf("day", "a day as a text, such as 2025-03-31", dayText),
  conversionOf("number", "a number as a text", (number) => String(number)),
  {
    name: "number_from",
    meaning: "the number that a text writes, with a decimal point; no answer for other texts",
    parameters: [required("text", ["text"], "a text such as 12.5")],
    answers: "number" as const,
    apply: numberFrom,
  },
  {
    name: "day_from_text",
    meaning: "the day that a text writes as year-month-day; no answer for other texts",
    parameters: [required("text", ["text"], "a text such as 2025-03-31")],
    answers: "day" as const,
    apply: dayFromText,
  },
].map((plan) => plainWord(plan as PlainWord));

function oneText(name: string, meaning: string, apply: (text: string) => RowValue): PlainWord {
  return {
    name,
    meaning,
    parameters: [required("text", ["text"], "the text")],
    answers: "text",
    apply,
  };
}

function conversionOf(
  kind: "day" | "number",
  meaning: string,
  apply: (held: number) => string,
): PlainWord {
  const parameters = [required(kind, [kind], `the ${kind}`)];
  return { name: `${kind}_as_text`, meaning, parameters, answers: "text", apply };
}

/** True if found; where items are missing and none matches, missing. */
function contains(where: string | readonly RowValue[], what: string): RowValue {
  if (where.includes(what)) return true;
  return typeof where !== "string" && where.includes(null) ? null : false;
}

function containsAny(where: readonly RowValue[], what: readonly RowValue[]): RowValue {
  if (what.some((text) => text !== null && where.includes(text))) return true;
  const isUndecided = where.includes(null) && what.length > 0;
  return isUndecided || (what.includes(null) && where.length > 0) ? null : false;
}

function numberFrom(text: string): number {
  const trimmed = text.trim();
  return /^-?\d+(\.\d+)?([eE][+-]?\d+)?$/.test(trimmed) ? Number(trimmed) : Number.NaN;
}

function dayFromText(text: string): number {
  const parts = readDay(text.trim());
  return parts !== null && isPossible(parts) ? dayNumber(parts) : Number.NaN;
}
