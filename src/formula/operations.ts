import { firstDay, lastDay } from "./calendar.ts";
import type { Kind } from "./kinds.ts";
import type { ReckoningOperator } from "./tree.ts";
import type { RowValue } from "./vocabulary.ts";

/**
 * What the operators do, by the kinds they stand between: one table for working out a single
 * value, for whole columns and for the checks, so that the three cannot differ.
 *
 * Lengths of time count in whole days: `day ± length` is that many days on or back, `day - day`
 * is a length in days, and a length times or divided by a number is rounded to the nearest
 * whole day (so 3 months twice is 182 days, and 6 months is 183: see `wholeDays`).
 *
 * `apply` is never given null: a missing operand makes the outcome missing, but for `and` and
 * `or` (see three-valued.ts).
 */
export interface Operation {
  readonly answers: Kind;
  apply(left: RowValue, right: RowValue): RowValue;
}

/** Undefined where the operator does not stand between such kinds. */
export function operationFor(
  operator: ReckoningOperator,
  left: Kind,
  right: Kind,
): Operation | undefined {
  if (left === "missing" || right === "missing") return withMissing(operator, left, right);
  return table.get(`${left} ${operator} ${right}`);
}

/** Whether a number, length or day can be reckoned on with: finite, and a day that exists. */
export function isSound(kind: Kind, held: RowValue): boolean {
  if (typeof held !== "number") return true;
  return kind === "day" ? held >= firstDay && held <= lastDay : Number.isFinite(held);
}

type Arithmetic = (left: number, right: number) => number;
type Comparison = (left: never, right: never) => boolean;

const table: ReadonlyMap<string, Operation> = new Map([
  arithmetic("number + number", "number", (left, right) => left + right),
  arithmetic("number - number", "number", (left, right) => left - right),
  arithmetic("number * number", "number", (left, right) => left * right),
  arithmetic("number / number", "number", (left, right) => left / right),
  arithmetic("number ^ number", "number", (left, right) => left ** right),
  arithmetic("duration + duration", "duration", (left, right) => left + right),
  arithmetic("duration - duration", "duration", (left, right) => left - right),
  arithmetic("duration * number", "duration", (left, right) => Math.round(left * right)),
  arithmetic("number * duration", "duration", (left, right) => Math.round(left * right)),
  arithmetic("duration / number", "duration", (left, right) => Math.round(left / right)),
  arithmetic("duration / duration", "number", (left, right) => left / right),
  arithmetic("day + duration", "day", (left, right) => left + right),
  arithmetic("duration + day", "day", (left, right) => left + right),
  arithmetic("day - duration", "day", (left, right) => left - right),
  arithmetic("day - day", "duration", (left, right) => left - right),
  ...["number", "day", "duration"].flatMap((kind) => [
    ...equality(kind),
    comparison(`${kind} < ${kind}`, (left, right) => left < right),
    comparison(`${kind} <= ${kind}`, (left, right) => left <= right),
    comparison(`${kind} > ${kind}`, (left, right) => left > right),
    comparison(`${kind} >= ${kind}`, (left, right) => left >= right),
  ]),
  ...equality("text"),
  ...equality("truth"),
]);

function arithmetic(form: string, answers: Kind, apply: Arithmetic): [string, Operation] {
  return [form, { answers, apply: apply as Operation["apply"] }];
}

function comparison(form: string, apply: Comparison): [string, Operation] {
  return [form, { answers: "truth", apply: apply as Operation["apply"] }];
}

function equality(kind: string): [string, Operation][] {
  return [
    comparison(`${kind} = ${kind}`, (left, right) => left === right),
    comparison(`${kind} != ${kind}`, (left, right) => left !== right),
  ];
}

/** The other side may be of any kind that the operator takes on that side. */
function withMissing(operator: ReckoningOperator, left: Kind, right: Kind): Operation | undefined {
  const fits = [...table.keys()].some((form) => {
    const [formLeft, formOperator, formRight] = form.split(" ");
    const fitsLeft = left === "missing" || left === formLeft;
    return formOperator === operator && fitsLeft && (right === "missing" || right === formRight);
  });
  if (!fits) return undefined;
  const answers = "+-*/^".includes(operator) ? "missing" : "truth";
  return { answers, apply: () => null };
}
