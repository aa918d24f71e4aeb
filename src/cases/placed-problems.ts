import type { Problem } from "../problem/problem.ts";
import type { FileFacts } from "./case-reading.ts";

/**
 * Problems with the file's name in their places: those of the whole file and of whole columns
 * first, then by line. What was found in a withheld line is not shown.
 */
export function placedProblems(
  problems: readonly Problem[],
  facts: FileFacts,
  withheld: ReadonlySet<number>,
): readonly Problem[] {
  return problems
    .map((problem) => withoutFound(problem, withheld))
    .map((problem) => ({ ...problem, place: { file: facts.name, ...problem.place } }))
    .sort((one, other) => (one.place.line ?? 0) - (other.place.line ?? 0));
}

function withoutFound(problem: Problem, withheld: ReadonlySet<number>): Problem {
  const { line, field } = problem.place;
  if (line === undefined || field === undefined || !withheld.has(line)) return problem;
  const { found: _, ...rest } = problem;
  return rest;
}
