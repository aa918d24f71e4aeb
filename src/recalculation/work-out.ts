import { evaluate } from "../formula/evaluate.ts";
import type { Value } from "../formula/value.ts";
import type { Vocabulary } from "../formula/vocabulary.ts";
import type { Problem } from "../problem/problem.ts";
import { Interruption } from "../statistics/long-work.ts";
import type { CellState } from "./cell-state.ts";
import { type CellPlan, cycleProblem } from "./plan-cells.ts";

/** How a cell stands once nothing is being worked out any more. */
export type RestingState = Exclude<CellState, { readonly status: "recalculating" }>;

export interface WorkedOut {
  readonly state: RestingState;
  /** The states it rests on, by name: while they are the same, so is the outcome. */
  readonly restsOn: ReadonlyMap<string, RestingState>;
  /** False where the working was not looked at, since the cell waits or is at fault anyway. */
  readonly evaluated: boolean;
}

/**
 * Works a cell out from the states of what feeds it. A cell whose feeding cells are at fault or
 * waiting waits for the roots of that. Throws nothing but the interruption of long work: an error
 * thrown by a word is a bug of ours and becomes this cell's fault.
 */
export function workOut(
  plan: CellPlan,
  states: ReadonlyMap<string, RestingState>,
  vocabulary: Vocabulary,
): WorkedOut {
  const { tree } = plan;
  if (plan.problems.length > 0 || tree === null) {
    return { state: atFault(plan.problems), restsOn: new Map(), evaluated: false };
  }
  const certain = plan.certain.map((name) => [name, states.get(name)!] as const);
  const restsOn = new Map<string, RestingState>(certain);
  const roots = certain.flatMap(([name, state]) => rootsOf(name, state));
  if (roots.length > 0) return { state: waiting(roots), restsOn, evaluated: false };
  const closing: Problem[] = [];
  const cell = (name: string): Value | undefined => {
    const way = plan.closing.get(name);
    if (way !== undefined) closing.push(cycleProblem(plan.name, way));
    const state = states.get(name);
    if (state === undefined) return undefined;
    restsOn.set(name, state);
    roots.push(...rootsOf(name, state));
    return state.status === "current" ? state.value : undefined;
  };
  const outcome = evaluated(plan.name, () => evaluate(tree, { vocabulary, cell }));
  if (closing.length > 0) return { state: atFault(closing.slice(0, 1)), restsOn, evaluated: true };
  return { state: roots.length > 0 ? waiting(roots) : outcome, restsOn, evaluated: true };
}

function evaluated(cell: string, work: () => ReturnType<typeof evaluate>): RestingState {
  try {
    const outcome = work();
    if (outcome.ok) return { status: "current", value: outcome.value };
    return atFault(outcome.problems.map((problem) => inCell(problem, cell)));
  } catch (error) {
    if (error instanceof Interruption) throw error;
    return atFault([internalError(cell, error)]);
  }
}

/** The cells that must be mended, or the inputs that must come, before `name` has a value. */
function rootsOf(name: string, state: RestingState): readonly string[] {
  if (state.status === "current") return [];
  return state.status === "waiting" ? state.waitsFor : [name];
}

function waiting(roots: readonly string[]): RestingState {
  return { status: "waiting", waitsFor: [...new Set(roots)] };
}

function atFault(problems: readonly Problem[]): RestingState {
  return { status: "at fault", problems };
}

function inCell(problem: Problem, cell: string): Problem {
  return { ...problem, place: { ...problem.place, cell } };
}

/** An error that a word threw, as the fault of a cell. */
export function internalError(cell: string, error: unknown): Problem {
  return {
    code: "internal-error",
    severity: "stop",
    place: { cell },
    message: "Holdfast failed while it worked this cell out: a fault of the program, not of yours.",
    found: error instanceof Error ? error.message : String(error),
    remedy: "report it with this message; the other cells are not affected",
  };
}
