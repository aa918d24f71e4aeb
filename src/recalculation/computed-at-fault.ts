import type { CaseReading } from "../cases/case-reading.ts";
import type { Problem } from "../problem/problem.ts";
import type { CellState } from "./cell-state.ts";

/** Cases as they are read, with what is wrong with columns that were to be computed, by name. */
export interface ReadingWithFaults extends CaseReading {
  readonly computedFaults?: ReadonlyMap<string, readonly Problem[]>;
}

/**
 * The state of a cell as it is told. Where a name is unknown because the column of that name cannot
 * be worked out, it says so and why: the root lies there, and not in the cell.
 */
export function withComputedFaults(state: CellState, cases: CellState | undefined): CellState {
  if (state.status !== "at fault") return state;
  const faults = faultsIn(cases);
  if (faults === undefined) return state;
  return { ...state, problems: state.problems.map((problem) => rootedIn(problem, faults)) };
}

/** The problem, or what it comes from where a name is that of a column at fault. */
export function rootedIn(
  problem: Problem,
  faults: ReadonlyMap<string, readonly Problem[]>,
): Problem {
  const root = problem.code === "unknown-name" && faults.get(problem.found ?? "")?.[0];
  return root ? ofColumn(problem, root) : problem;
}

function faultsIn(cases: CellState | undefined): ReadingWithFaults["computedFaults"] {
  if (cases?.status !== "current" || cases.value.kind !== "thing") return undefined;
  return (cases.value.content as ReadingWithFaults).computedFaults;
}

function ofColumn({ place, found = "" }: Problem, root: Problem): Problem {
  const why = root.message.replace(/\.$/, "");
  return {
    code: "computed-at-fault",
    severity: "stop",
    place,
    message: `the computed column \`${found}\` is at fault: ${why}.`,
    found,
    remedy: "mend its working under “Computed columns” on the leaf of cases",
  };
}
