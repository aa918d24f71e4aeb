import type { Duration, Thing, Value } from "../formula/value.ts";
import type { GivenArguments, Outcome, Parameter, Word } from "../formula/vocabulary.ts";
import type { EyeRecord } from "../outcomes/eye-record.ts";
import type { Problem, Span } from "../problem/problem.ts";
import type { Answered } from "./answer.ts";
import { answerValue } from "./answering/answered-eyes.ts";
import { withBrief } from "./answering/brief.ts";
import { withPeople } from "./answering/people-shown.ts";

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
  return { ...facts, answers: "answer", call: (given) => outcome(worked(given, work), given) };
}

function worked(given: GivenArguments, work: (given: GivenArguments) => Worked): Worked {
  const eyes = given.values.get("eyes");
  if (
    eyes?.value.kind === "thing" &&
    eyes.value.of === "table" &&
    eyesIn(eyes.value) === undefined
  ) {
    return { problems: [noEyes(eyes.span)] };
  }
  return work(given);
}

function noEyes(span: Span): Problem {
  return {
    code: "table-without-eyes",
    severity: "stop",
    place: { span },
    message: "this table does not hold one eye a row",
    expected: "eyes from index_eyes or eyes_from, or a table kept or sorted from them",
    remedy: "make the eyes first, then keep those that are asked about",
  };
}

function outcome(worked: Worked, given: GivenArguments): Outcome {
  if ("problems" in worked) return { ok: false, problems: worked.problems };
  const answered = {
    ...worked.answered,
    answer: withPeople(withBrief(worked.answered.answer), given),
  };
  return { ok: true, value: answerValue(answered, worked.words ?? []) };
}

/** The parameter by which nearly every question takes its eyes. */
export const eyesParameter: Parameter = {
  name: "eyes",
  meaning: "the eyes, from index_eyes or eyes_from, or a table of them",
  takes: "value",
  kinds: ["eyes", "table"],
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
  const thing = thingGiven(given, "eyes");
  const record = thing.of === "table" ? eyesIn(thing) : (thing.content as EyeRecord);
  if (record === undefined) throw new Error("eyes were asked of a table that holds none");
  return record;
}

/** The eyes that a table's rows are, where it was made from eyes and holds each once. */
function eyesIn(table: Thing): EyeRecord | undefined {
  return (table.content as { readonly eyes?: EyeRecord }).eyes;
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
