import type { Value } from "../../formula/value.ts";
import type { GivenArguments, Outcome, Parameter, Word } from "../../formula/vocabulary.ts";

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
    meaning: "a setting: a number between two ends",
    parameters: [
      parameter("least", "the smallest it can be", ["number"]),
      parameter("most", "the largest it can be", ["number"]),
      {
        ...parameter("step", "how far one press moves it", ["number"]),
        required: false,
        whenLeftOut: "1",
      },
      parameter("now", "what it is", ["number"]),
    ],
    answers: "number",
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
  const number = (name: string): number | undefined => {
    const value = given.values.get(name)?.value;
    return value?.kind === "number" ? value.number : undefined;
  };
  const [least, most, now] = [number("least"), number("most"), number("now")];
  if (
    now !== undefined &&
    least !== undefined &&
    most !== undefined &&
    now >= least &&
    now <= most
  ) {
    return { ok: true, value: { kind: "number", number: now } };
  }
  return {
    ok: false,
    problems: [
      {
        code: "outside-the-range",
        severity: "stop",
        place: { span: given.values.get("now")?.span ?? given.span },
        message: `${now} lies outside the setting's range`,
        expected: `a number from ${least} to ${most}`,
      },
    ],
  };
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
