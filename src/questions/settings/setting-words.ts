import type { Value } from "../../formula/value.ts";
import type { GivenArguments, Outcome, Parameter, Word } from "../../formula/vocabulary.ts";

const numberOrTime = ["number", "duration"];

/**
 * The words that make a cell a setting of the sheet. Each is worth what is chosen now; what can
 * be chosen is read from the working itself, by `settingOf`.
 */
export const settingWords: readonly Word[] = [
  {
    name: "choose",
    meaning: "a setting: one of a list, chosen on the sheet",
    parameters: [
      parameter("options", "what can be chosen", ["list"]),
      { ...parameter("now", "what is chosen", []), required: true },
    ],
    answers: "any",
    call: chosen,
  },
  {
    name: "range",
    meaning: "a setting: a number or a length of time between two ends",
    parameters: [
      parameter("least", "the smallest it can be", numberOrTime),
      parameter("most", "the largest it can be", numberOrTime),
      {
        ...parameter("step", "how far one press moves it", numberOrTime),
        required: false,
        whenLeftOut: "1",
      },
      parameter("now", "what it is", numberOrTime),
    ],
    answers: "any",
    call: inRange,
  },
  {
    name: "yes_no",
    meaning: "a setting: yes or no",
    parameters: [parameter("now", "what it is", ["truth"])],
    answers: "truth",
    call: (given) => ({ ok: true, value: given.values.get("now")?.value ?? { kind: "missing" } }),
  },
  {
    name: "dates",
    meaning: "a setting: a first and a last day, read as period.from and period.to",
    parameters: [
      parameter("from", "the first day", ["day"]),
      parameter("to", "the last day", ["day"]),
    ],
    answers: "dates",
    call: datesBetween,
  },
];

function parameter(name: string, meaning: string, kinds: readonly string[]): Parameter {
  return { name, meaning, takes: "value", kinds, required: true };
}

function chosen(given: GivenArguments): Outcome {
  const options = given.values.get("options")?.value;
  const now = given.values.get("now");
  if (options?.kind !== "list" || now === undefined)
    return { ok: true, value: { kind: "missing" } };
  if (options.items.some((option) => sameValue(option, now.value))) {
    return { ok: true, value: now.value };
  }
  return {
    ok: false,
    problems: [
      {
        code: "not-an-option",
        severity: "stop",
        place: { span: now.span },
        message: "what is chosen now is not among the options",
        expected: "one of the options, written the same way",
      },
    ],
  };
}

function sameValue(a: Value, b: Value): boolean {
  if (a.kind === "duration" && b.kind === "duration")
    return a.amount === b.amount && a.unit === b.unit;
  return a.kind === b.kind && JSON.stringify(a) === JSON.stringify(b);
}

function inRange(given: GivenArguments): Outcome {
  const value = (name: string) => given.values.get(name)?.value;
  const [least, most, now] = [value("least"), value("most"), value("now")];
  const [low, high, at] = [sizeOf(least), sizeOf(most), sizeOf(now)];
  const isOneKind = least?.kind === now?.kind && most?.kind === now?.kind;
  if (now !== undefined && isOneKind && at >= low && at <= high) return { ok: true, value: now };
  const span = given.values.get("now")?.span ?? given.span;
  const kind = isOneKind ? kindOf(now) : "numbers of one kind,";
  const expected = `${kind} from ${wordsOf(least)} to ${wordsOf(most)}`;
  const message = `${wordsOf(now)} lies outside the setting's range`;
  const code = "outside-the-range";
  return {
    ok: false,
    problems: [{ code, severity: "stop", place: { span }, message, expected }],
  };
}

/** A number as it is, a length of time in days; what is neither lies in no range. */
function sizeOf(value: Value | undefined): number {
  if (value?.kind === "duration") return value.days;
  return value?.kind === "number" ? value.number : Number.NaN;
}

function kindOf(value: Value | undefined): string {
  return value?.kind === "duration" ? "a length of time" : "a number";
}

function wordsOf(value: Value | undefined): string {
  if (value?.kind === "duration") {
    return `${value.amount} ${value.unit}${value.amount === 1 ? "" : "s"}`;
  }
  return value?.kind === "number" ? String(value.number) : "missing";
}

function datesBetween(given: GivenArguments): Outcome {
  const from = given.values.get("from")?.value;
  const to = given.values.get("to");
  if (from?.kind !== "day" || to?.value.kind !== "day" || to.value.day < from.day) {
    return {
      ok: false,
      problems: [
        {
          code: "dates-backwards",
          severity: "stop",
          place: { span: to?.span ?? given.span },
          message: "the last day comes before the first",
          expected: "a last day on or after the first",
        },
      ],
    };
  }
  const parts = new Map<string, Value>([
    ["from", from],
    ["to", to.value],
  ]);
  return {
    ok: true,
    value: { kind: "thing", of: "dates", parts, content: [from.day, to.value.day] },
  };
}
