import { dayNumber, dayText, isPossible, readDay } from "../formula/calendar.ts";
import type { Problem } from "../problem/problem.ts";
import { type Footing, readFooting, writeFooting } from "./footing.ts";

/**
 * What a meeting was told of a cell: `minuted 2026-03-14: 60 of 442`, and between square brackets
 * behind it, where it is known, what that rested on.
 */
export interface Minuted {
  /** Whole days since 1970-01-01. */
  readonly day: number;
  /** What was told, as written. */
  readonly text: string;
  readonly restsOn?: Footing;
  /** Index of its line, from 0. */
  readonly line: number;
}

/** What a minuted line says, or what is wrong with it. */
export type MinutedReading =
  | { readonly ok: true; readonly minuted: Minuted }
  | { readonly ok: false; readonly problem: Problem };

/** A working never holds these words in this order, so that such a line is never part of one. */
const pattern = /^([ \t]*)minuted[ \t]+(\d[^:]*?)[ \t]*:[ \t]*(.*?)[ \t]*$/;

/** Whether a line is meant as a minuted line, well written or not. */
export function isMinuted(text: string): boolean {
  return pattern.test(text);
}

/** Reads a line that `isMinuted`; `line` is its index from 0. */
export function readMinuted(text: string, line: number): MinutedReading {
  const [, indent = "", written = "", told = ""] = pattern.exec(text) ?? [];
  const parts = readDay(written);
  const column = indent.length + 1;
  if (parts === null || !isPossible(parts)) {
    return refuse({ line: line + 1, column }, written, "a day such as 2026-03-14");
  }
  if (told === "") {
    return refuse({ line: line + 1, column }, text.trim(), "what the meeting was told: 60 of 442");
  }
  return { ok: true, minuted: { day: dayNumber(parts), ...withFooting(told), line } };
}

/** The line, without indentation. */
export function writeMinuted(day: number, text: string, restsOn?: Footing): string {
  const behind = restsOn === undefined ? "" : ` [${writeFooting(restsOn)}]`;
  return `minuted ${dayText(day)}: ${text}${behind}`;
}

/** Brackets that hold no such thing are part of what was told. */
function withFooting(told: string): Pick<Minuted, "text" | "restsOn"> {
  const [, text, inBrackets] = /^(.*\S)[ \t]*\[([^[\]]*)\]$/.exec(told) ?? [];
  const restsOn = inBrackets === undefined ? null : readFooting(inBrackets);
  return text === undefined || restsOn === null ? { text: told } : { text, restsOn };
}

function refuse(place: Problem["place"], found: string, expected: string): MinutedReading {
  return {
    ok: false,
    problem: {
      code: "minuted-unreadable",
      severity: "query",
      place,
      message: "This minuted line cannot be read, so it is not checked.",
      found,
      expected,
      remedy: "write minuted, the day, a colon and the number that the meeting was told",
    },
  };
}
