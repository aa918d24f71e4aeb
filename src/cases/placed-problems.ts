import type { Problem } from "../problem/problem.ts";
import { withoutIdentifiers } from "./privacy/identifiers-in-text.ts";

/** A file by name, and its lines of which nothing is shown. */
export interface PlacedFile {
  readonly name: string;
  readonly withheld: ReadonlySet<number>;
}

/**
 * Problems in the order of files: of each those of the whole file and of whole columns first, then
 * by line. One without a file is of the first. What was found in a withheld line is not shown,
 * and no identifier anywhere.
 */
export function placedProblems(
  problems: readonly Problem[],
  files: readonly PlacedFile[],
): readonly Problem[] {
  const [first] = files;
  const positions = new Map(files.map(({ name }, i) => [name, i]));
  const withheld = new Map(files.map(({ name, withheld }) => [name, withheld]));
  const positionOf = ({ place }: Problem) => positions.get(place.file ?? "") ?? 0;
  return problems
    .map((problem) => ({ ...problem, place: { file: first?.name ?? "", ...problem.place } }))
    .map((problem) => withoutFound(problem, withheld.get(problem.place.file)))
    .sort(
      (one, other) =>
        positionOf(one) - positionOf(other) || (one.place.line ?? 0) - (other.place.line ?? 0),
    );
}

function withoutFound(problem: Problem, withheld: ReadonlySet<number> | undefined): Problem {
  const { found, ...rest } = problem;
  const { line, field } = problem.place;
  if (found === undefined || field === "case") return problem;
  if (line !== undefined && field !== undefined && withheld?.has(line)) return rest;
  return { ...rest, found: withoutIdentifiers(found) };
}
