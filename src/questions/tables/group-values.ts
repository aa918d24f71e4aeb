import { rowValueOf } from "../../formula/kinds.ts";
import type {
  GivenOperand,
  RowArguments,
  RowOperand,
  RowOutcome,
  RowValue,
  Word,
} from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { valueText } from "../answering/cell-text.ts";
import { rowWord } from "./row-word.ts";
import { tableProblem } from "./table-problem.ts";

/**
 * Values gathered under new names, in the order given: a name, then the list of what it holds,
 * and so on. What no list holds keeps its own text, or is gathered under `others`; what is
 * missing stays missing. In a column of several codes each is gathered by itself.
 */
export const groupValues: Word = rowWord(
  {
    name: "group_values",
    meaning: 'values gathered under new names: group_values(lens, "natural", ["phakic"])',
    parameters: [
      {
        name: "value",
        meaning: "the column or value whose values are gathered",
        takes: "value",
        kinds: ["text", "number", "truth", "list", "missing"],
        required: true,
      },
      {
        name: "groups",
        meaning: "a name, then the list of values under it, and so on",
        takes: "value",
        kinds: ["text", "list"],
        required: true,
        repeated: true,
      },
      {
        name: "others",
        meaning: "the name for values that no list holds",
        takes: "value",
        kinds: ["text"],
        required: false,
        byNameOnly: true,
        whenLeftOut: "each keeps its own name",
      },
    ],
    answers: "any",
  },
  groupPerRow,
);

function groupPerRow({ values, repeated, span }: RowArguments): RowOutcome {
  const value = values.get("value")?.operand;
  if (value === undefined) throw new Error("called without a value");
  const names = namesOf(repeated);
  if ("problems" in names) return { ok: false, problems: names.problems };
  if (names.lists === 0) return { ok: false, problems: [notInPairs(span)] };
  const others = values.get("others")?.operand.at(0) ?? null;
  const order = [...new Set(names.byValue.values())];
  return { ok: true, operand: gathered(value, { byValue: names.byValue, others, order }) };
}

type Names =
  | { readonly byValue: ReadonlyMap<RowValue, string>; readonly lists: number }
  | { readonly problems: readonly Problem[] };

function namesOf(pairs: readonly GivenOperand[]): Names {
  const byValue = new Map<RowValue, string>();
  for (let i = 0; i < pairs.length; i += 2) {
    const [name, list] = [pairs[i], pairs[i + 1]];
    const [text, items] = [name?.operand.constant, list?.operand.constant];
    if (name === undefined || text?.kind !== "text" || items?.kind !== "list") {
      return { problems: [notInPairs((name ?? list)?.span ?? { start: 0, end: 0 })] };
    }
    for (const item of items.items) {
      const held = item.kind === "thing" ? null : rowValueOf(item);
      if (byValue.has(held)) return { problems: [inTwoGroups(list!, String(held))] };
      byValue.set(held, text.text);
    }
  }
  return { byValue, lists: pairs.length / 2 };
}

interface Gathering {
  readonly byValue: ReadonlyMap<RowValue, string>;
  readonly others: RowValue;
  readonly order: readonly string[];
}

function gathered(value: RowOperand, { byValue, others, order }: Gathering): RowOperand {
  const nameOf = (held: RowValue): RowValue =>
    held === null ? null : (byValue.get(held) ?? others ?? valueText(held, "text"));
  const full = typeof others === "string" && !order.includes(others) ? [...order, others] : order;
  if (value.kind !== "list") {
    return { kind: "text", order: full, at: (row) => nameOf(value.at(row)) };
  }
  const at = (row: number) => {
    const held = value.at(row) as readonly RowValue[] | null;
    return held === null ? null : [...new Set(held.map(nameOf))];
  };
  return { kind: "list", item: "text", order: full, at };
}

function notInPairs(span: GivenOperand["span"]): Problem {
  return tableProblem("pairs-expected", span, {
    message: "groups are given in pairs, the same for every row: a name, then its values.",
    expected: '"any buckle", ["scleral buckle", "vitrectomy with buckle"]',
  });
}

function inTwoGroups({ span }: GivenOperand, found: string): Problem {
  return tableProblem("value-in-two-groups", span, {
    message: "a value can stand in one group only.",
    found,
    expected: "each value in one list, once",
  });
}
