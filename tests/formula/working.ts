import { dayText } from "../../src/formula/calendar.ts";
import { check } from "../../src/formula/check.ts";
import { evaluate } from "../../src/formula/evaluate.ts";
import { parse } from "../../src/formula/parse.ts";
import type { Thing, Value } from "../../src/formula/value.ts";
import type { Outcome, Vocabulary, Word } from "../../src/formula/vocabulary.ts";
import { generalWords } from "../../src/formula/words/general-words.ts";
import { formatProblem } from "../../src/problem/format-problem.ts";

/** A value in compact text: `4`, `"a"`, `2025-03-31`, `91 days`, `[1, missing]`, `<rates>`. */
export function show(value: Value): string {
  switch (value.kind) {
    case "missing":
      return "missing";
    case "number":
      return String(value.number);
    case "truth":
      return String(value.truth);
    case "text":
      return JSON.stringify(value.text);
    case "day":
      return dayText(value.day);
    case "duration":
      return `${value.days} days`;
    case "list":
      return `[${value.items.map(show).join(", ")}]`;
    case "thing":
      return `<${value.of}>`;
  }
}

export const aNumber = (number: number): Value => ({ kind: "number", number });
export const aText = (text: string): Value => ({ kind: "text", text });

/** An answer with parts of every sort, and one to call. */
const rates: Thing = {
  kind: "thing",
  of: "rates",
  content: { secret: 1 },
  parts: new Map<string, Value | Word>([
    ["rate", aNumber(0.25)],
    ["eyes", aNumber(40)],
    [
      "at",
      {
        name: "at",
        meaning: "the rate at a day",
        answers: "number",
        parameters: [
          {
            name: "day",
            meaning: "after how long",
            takes: "value",
            kinds: ["duration"],
            required: true,
          },
        ],
        call: ({ values }) => {
          const given = values.get("day")?.value;
          return { ok: true, value: aNumber(given?.kind === "duration" ? given.days : Number.NaN) };
        },
      },
    ],
  ]),
};

/** Words of a made-up domain, for what general words do not show. */
const madeUpWords: readonly Word[] = [
  {
    name: "rates_of",
    meaning: "the rates of a table",
    answers: "rates",
    parameters: [
      { name: "table", meaning: "the table", takes: "value", kinds: ["table"], required: true },
      { name: "by", meaning: "the groups", takes: "row", kinds: [], required: false },
      {
        name: "ending",
        meaning: "what counts as an ending",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: ["closed", "open", "left under oil"],
        whenLeftOut: '"closed"',
      },
      {
        name: "within",
        meaning: "the time to look at",
        takes: "value",
        kinds: ["duration"],
        required: false,
      },
    ],
    call: () => ({ ok: true, value: rates }),
  },
  {
    name: "summed_up",
    meaning: "sums over the groups of a table",
    answers: "table",
    parameters: [
      { name: "table", meaning: "the table", takes: "value", kinds: ["table"], required: true },
      {
        name: "by",
        meaning: "the groups",
        takes: "row",
        kinds: [],
        required: false,
        byNameOnly: true,
      },
      {
        name: "sums",
        meaning: "what to work out for each group",
        takes: "row",
        kinds: [],
        required: true,
        repeated: true,
        freeNames: true,
      },
    ],
    call: ({ repeated }) => ({
      ok: true,
      value: {
        kind: "list",
        items: repeated.map((one) =>
          aText(`${one.name ?? "-"}: ${"text" in one ? one.text : show(one.value)}`),
        ),
      },
    }),
  },
  {
    name: "refuses",
    meaning: "always has a problem",
    answers: "number",
    parameters: [],
    call: () => ({
      ok: false,
      problems: [{ code: "made-up", severity: "stop", place: {}, message: "this is refused." }],
    }),
  },
];

export const vocabulary: Vocabulary = new Map(
  [...generalWords, ...madeUpWords].map((word) => [word.name, word]),
);

export const cells: ReadonlyMap<string, Value> = new Map<string, Value>([
  ["x", aNumber(3)],
  ["m", { kind: "missing" }],
  ["name", aText("segmental")],
  ["operated", { kind: "day", day: 20178 }],
  ["wanted", { kind: "list", items: [aText("a"), aText("b")] }],
  ["how_often", rates],
  ["cases", { kind: "thing", of: "table", content: null, parts: new Map() }],
  ["lasted", { kind: "duration", amount: 3, unit: "month", days: 91 }],
]);

/** A working read, checked by nothing, and worked out over the cells above. */
export function outcomeOf(text: string, more: ReadonlyMap<string, Value> = new Map()): Outcome {
  const { tree, problems } = parse(text);
  if (tree === null || problems.length > 0) return { ok: false, problems };
  return evaluate(tree, { vocabulary, cell: (name) => more.get(name) ?? cells.get(name) });
}

/** What a working is worth in compact text, or its problems as the reader sees them. */
export function work(text: string, more: ReadonlyMap<string, Value> = new Map()): string {
  const outcome = outcomeOf(text, more);
  return outcome.ok ? show(outcome.value) : outcome.problems.map(formatProblem).join("\n");
}

/** The problems that are found before anything runs, reading included. */
export function problemsOf(text: string) {
  const { tree, problems } = parse(text);
  const checked = tree === null ? [] : check(tree, { vocabulary, cells: new Set(cells.keys()) });
  return [...problems, ...checked];
}
