import { columnNamed } from "../../cases/table.ts";
import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { nearestName } from "../../problem/nearest-name.ts";
import type { Problem, Span } from "../../problem/problem.ts";
import { listed } from "../answering/wording.ts";
import { valueGiven } from "../question.ts";

/** One surgeon's eyes, and those of the unit without them. */
export interface OnePerson {
  readonly code: string;
  readonly eyes: readonly number[];
  readonly others: readonly number[];
  /** How many other surgeons there are: of one alone, the rest would tell the results. */
  readonly otherPeople: number;
}

export function personParameter(name: string, meaning: string): Parameter {
  return {
    name,
    meaning,
    takes: "value",
    kinds: ["text", "number"],
    required: true,
    byNameOnly: true,
  };
}

export const surgeonParameter = personParameter("surgeon", "the code of the operating surgeon");

/** The eyes of the surgeon named by this argument, or a problem: no such column, no such code. */
export function onePerson(
  record: EyeRecord,
  given: GivenArguments,
  name = "surgeon",
): { readonly person: OnePerson } | { readonly problems: readonly Problem[] } {
  const span = given.values.get(name)?.span ?? given.span;
  const column = columnNamed(record.table, "surgeon");
  if (column === undefined) return { problems: [noSurgeons(span)] };
  const value = valueGiven(given, name);
  const code =
    value?.kind === "number" ? String(value.number) : value?.kind === "text" ? value.text : "";
  const codes = column.values.map((each) => (each === null ? null : String(each)));
  const all = codes.map((each, eye) => ({ code: each, eye }));
  const eyes = all.filter((each) => each.code === code).map(({ eye }) => eye);
  if (eyes.length === 0) return { problems: [noSuchSurgeon(code, span, codes)] };
  const others = all.filter((each) => each.code !== code);
  const otherPeople = new Set(others.flatMap((each) => each.code ?? [])).size;
  return { person: { code, eyes, others: others.map(({ eye }) => eye), otherPeople } };
}

/** The rest of the unit is one other surgeon: their results would stand there as "the others". */
export function othersAreOne({ otherPeople, code }: OnePerson, span: Span): Problem[] {
  if (otherPeople !== 1) return [];
  return [
    {
      code: "others-are-one",
      severity: "stop",
      place: { span },
      message: `without ${code} the unit is one other surgeon, whose results this would show`,
      expected: "at least two other surgeons, or a published risk to set against",
      remedy: 'give expected: with source:, such as expected: 13%, source: "…"',
    },
  ];
}

/** "the unit without A". */
export function withoutPerson({ code }: OnePerson): string {
  return `the unit without ${code}`;
}

function noSurgeons(span: Span): Problem {
  return {
    code: "no-surgeons",
    severity: "stop",
    place: { span },
    message: "the file has no column for the operating surgeon",
    expected: "a column matched to surgeon",
  };
}

function noSuchSurgeon(code: string, span: Span, codes: readonly (string | null)[]): Problem {
  const known = [...new Set(codes.flatMap((each) => each ?? []))].sort();
  const nearest = nearestName(code, known);
  return {
    code: "no-such-surgeon",
    severity: "stop",
    place: { span },
    message: `no eye of these was operated on by "${code}"`,
    found: code,
    expected: `one of ${listed(known.slice(0, 12))}`,
    ...(nearest === undefined ? {} : { remedy: `write "${nearest}"` }),
  };
}
