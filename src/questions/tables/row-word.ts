import { kindOfValue, valueOfRow } from "../../formula/kinds.ts";
import { constantOperand } from "../../formula/row-context.ts";
import type {
  GivenArguments,
  GivenOperand,
  GivenValue,
  Outcome,
  RowArguments,
  RowOutcome,
  Word,
} from "../../formula/vocabulary.ts";

/** A word over the rows of a table that means the same for single values. */
export function rowWord(
  facts: Pick<Word, "name" | "meaning" | "parameters" | "answers">,
  perRow: (given: RowArguments) => RowOutcome,
): Word {
  return { ...facts, perRow, call: (given) => callOnce(given, perRow) };
}

function callOnce(given: GivenArguments, perRow: (given: RowArguments) => RowOutcome): Outcome {
  const outcome = perRow({
    values: new Map(Array.from(given.values, ([name, each]) => [name, operandOf(each)])),
    repeated: (given.repeated as readonly GivenValue[]).map(operandOf),
    columns: { names: () => [], column: () => undefined },
    span: given.span,
  });
  if (!outcome.ok) return outcome;
  const { kind, item } = outcome.operand;
  return { ok: true, value: valueOfRow(outcome.operand.at(0), kind, item) };
}

/** The kinds have been checked before the call, and none of them is a thing. */
function operandOf({ value, span }: GivenValue): GivenOperand {
  const operand = constantOperand(value);
  if (operand === null) throw new Error(`called with ${kindOfValue(value)}`);
  return { operand, span };
}
