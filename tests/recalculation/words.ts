import type { Thing, Value } from "../../src/formula/value.ts";
import type { GivenArguments, Outcome, Vocabulary, Word } from "../../src/formula/vocabulary.ts";
import type { Sheet } from "../../src/recalculation/sheet.ts";
import type { RestingState } from "../../src/recalculation/work-out.ts";

/** A small vocabulary of this room's own, to see the sheet at work without any domain. */
export const words: Vocabulary = new Map(
  [
    word("parity", ["of"], (given) => number(numberGiven(given, "of") % 2)),
    word("wrap", ["of"], (given) => ({ ok: true, value: wrapped(numberGiven(given, "of")) })),
    word("fail_inside", [], () => {
      throw new TypeError("a table is not a number");
    }),
    {
      ...word("count_rows", ["of"], () => number(0)),
      parameters: [
        parameter("of", "value", []),
        { ...parameter("where", "row", []), required: false },
      ],
      call: countRows,
    } satisfies Word,
  ].map((each) => [each.name, each]),
);

/** A thing that is another one each time it is made. */
function wrapped(content: number): Thing {
  return { kind: "thing", of: "wrapped", parts: new Map(), content };
}

/** Of the rows 0 to 9, those where the condition holds; their one column is called `row`. */
function countRows(given: GivenArguments): Outcome {
  const bound = given.rows.get("where")?.over({
    names: () => ["row"],
    column: (name) =>
      name === "row" ? { kind: "number", label: "row", at: (row) => row } : undefined,
  });
  if (bound === undefined) return number(10);
  if (!bound.ok) return bound;
  const rows = Array.from({ length: 10 }, (_, row) => bound.column.at(row));
  return number(rows.filter((holds) => holds === true).length);
}

function word(
  name: string,
  parameters: readonly string[],
  call: (given: GivenArguments) => Outcome,
): Word {
  const takes = parameters.map((each) => parameter(each, "value", ["number"]));
  return { name, meaning: name, parameters: takes, answers: "number", call };
}

function parameter(name: string, takes: "value" | "row", kinds: readonly string[]) {
  return { name, meaning: name, takes, kinds, required: true };
}

function numberGiven(given: GivenArguments, name: string): number {
  const value = given.values.get(name)?.value;
  if (value?.kind !== "number") throw new Error("not a number");
  return value.number;
}

function number(number: number): Outcome {
  return { ok: true, value: { kind: "number", number } };
}

export const asNumber = (number: number): Value => ({ kind: "number", number });

/** "3", "waits for cases", "fault: cycle": a state in one line. */
export function shown(sheet: Sheet, name: string): string {
  const state = sheet.state(name);
  if (state.status === "recalculating") return "recalculating";
  return shownState(state);
}

function shownState(state: RestingState): string {
  if (state.status === "waiting") return `waits for ${state.waitsFor.join(", ")}`;
  if (state.status === "at fault") {
    return `fault: ${state.problems.map((problem) => problem.code).join(", ")}`;
  }
  const { value } = state;
  return value.kind === "number" ? String(value.number) : value.kind;
}

/** Cells from lines such as `a = 1`. */
export function cellsOf(text: string): { readonly name: string; readonly working: string }[] {
  return text
    .split(/[\n;]/)
    .filter((line) => line.trim() !== "")
    .map((line) => {
      const at = line.indexOf("=");
      return { name: line.slice(0, at).trim(), working: line.slice(at + 1).trim() };
    });
}
