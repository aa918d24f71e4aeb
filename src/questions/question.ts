import type { Duration, Thing, Value } from "../formula/value.ts";
import type { GivenArguments, Outcome, Parameter, Word } from "../formula/vocabulary.ts";
import type { EyeRecord } from "../outcomes/eye-record.ts";
import type { Problem } from "../problem/problem.ts";
import type { Answered } from "./answer.ts";
import { answerValue } from "./answering/answered-eyes.ts";

/** A word of the vocabulary that answers an audit question. */
export interface Question extends Word {
  /** The question in the reader's words, from which a new cell starts. */
  readonly asks: string;
  /** A working that answers it, for a new cell and for the documentation. */
  readonly example: string;
}

/** What a question works out: an answer with the words that read it further, or problems. */
export type Worked =
  | { readonly answered: Answered; readonly words?: readonly Word[] }
  | { readonly problems: readonly Problem[] };

export function question(
  facts: Pick<Question, "name" | "meaning" | "asks" | "example" | "parameters">,
  work: (given: GivenArguments) => Worked,
): Question {
  return { ...facts, answers: "answer", call: (given) => outcome(work(given)) };
}

function outcome(worked: Worked): Outcome {
  if ("problems" in worked) return { ok: false, problems: worked.problems };
  return { ok: true, value: answerValue(worked.answered, worked.words ?? []) };
}

/** The parameter by which nearly every question takes its eyes. */
export const eyesParameter: Parameter = {
  name: "eyes",
  meaning: "the eyes, from index_eyes or eyes_from",
  takes: "value",
  kinds: ["eyes"],
  required: true,
};

export const byParameter: Parameter = {
  name: "by",
  meaning: "split the eyes by a column or an expression over columns",
  takes: "row",
  kinds: [],
  required: false,
  whenLeftOut: "all eyes together",
};

export const withinParameter: Parameter = {
  name: "within",
  meaning: "how long after the repair",
  takes: "value",
  kinds: ["duration"],
  required: false,
  whenLeftOut: "the window of the eyes, else to the end of follow-up",
};

export function eyesGiven(given: GivenArguments): EyeRecord {
  return thingGiven(given, "eyes").content as EyeRecord;
}

/** The language has checked the kind before the call, so anything else is our own mistake. */
export function thingGiven(given: GivenArguments, name: string): Thing {
  const value = valueGiven(given, name);
  if (value?.kind !== "thing") throw new Error(`${name} was called without a thing`);
  return value;
}

export function valueGiven(given: GivenArguments, name: string): Value | undefined {
  return given.values.get(name)?.value;
}

export function durationGiven(given: GivenArguments, name: string): Duration | undefined {
  const value = valueGiven(given, name);
  return value?.kind === "duration" ? value : undefined;
}

export function textGiven<T extends string>(given: GivenArguments, name: string, otherwise: T): T {
  const value = valueGiven(given, name);
  return value?.kind === "text" ? (value.text as T) : otherwise;
}

export function numberGiven(given: GivenArguments, name: string): number | undefined {
  const value = valueGiven(given, name);
  return value?.kind === "number" ? value.number : undefined;
}
