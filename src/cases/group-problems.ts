import { formatProblem } from "../problem/format-problem.ts";
import type { Problem } from "../problem/problem.ts";

/** Problems that say the same of several lines: one unknown value in one column, for instance. */
export interface ProblemGroup {
  /** The first of them. */
  readonly problem: Problem;
  /** The lines of all, rising; empty where it is of a whole file or column. */
  readonly lines: readonly number[];
}

/**
 * Says what is the same once, with its lines. In the same group are problems of one file, one
 * field and one wording with the same value found; groups come in the order of their first.
 */
export function groupProblems(problems: readonly Problem[]): readonly ProblemGroup[] {
  const groups = new Map<string, { readonly problem: Problem; readonly lines: number[] }>();
  for (const problem of problems) {
    const { line, ...place } = problem.place;
    const key = JSON.stringify({ ...problem, place });
    const group = groups.get(key) ?? { problem, lines: [] };
    if (line !== undefined) group.lines.push(line);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ problem, lines }) => ({
    problem,
    lines: lines.sort((one, other) => one - other),
  }));
}

/** A group as text: the problem, and where it comes more than once, its lines at the end. */
export function formatProblemGroup({ problem, lines }: ProblemGroup): string {
  if (lines.length < 2) return formatProblem(problem);
  const { line: _, ...place } = problem.place;
  return `${formatProblem({ ...problem, place })}\n  lines     ${describeLines(lines)}`;
}

const shown = 8;

/** "12, 40, 41 and 17 more". */
export function describeLines(lines: readonly number[]): string {
  if (lines.length <= shown + 1) return lines.join(", ");
  return `${lines.slice(0, shown).join(", ")} and ${lines.length - shown} more`;
}
