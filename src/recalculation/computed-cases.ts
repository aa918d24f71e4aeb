import type { CaseReading } from "../cases/case-reading.ts";
import type { Table } from "../cases/table.ts";
import { evaluate } from "../formula/evaluate.ts";
import { isName } from "../formula/keywords.ts";
import { parse } from "../formula/parse.ts";
import type { Vocabulary } from "../formula/vocabulary.ts";
import type { Computed } from "../notebook/computed.ts";
import type { Problem } from "../problem/problem.ts";
import type { TableValue } from "../questions/tables/table-value.ts";
import { casesThing } from "./cases-thing.ts";
import { type ReadingWithFaults, rootedIn } from "./computed-at-fault.ts";
import { isSame } from "./is-same.ts";

/** Cases with the columns that are worked out in every row. */
export interface WithComputed {
  /** With the columns that could be worked out, and what is wrong with the others. */
  readonly reading: ReadingWithFaults;
  /** By column, what is wrong with it. */
  readonly faults: ReadonlyMap<string, readonly Problem[]>;
}

/** The columns with one more or another working of one; without a working it goes. */
export function withComputed(
  computed: Computed,
  column: string,
  working: string | undefined,
): Computed {
  const changed = new Map(computed);
  if (working === undefined) changed.delete(column);
  else changed.set(column, working);
  return changed;
}

/** Works columns out over cases, and again only where cases or workings are others. */
export class ComputedCases {
  readonly #vocabulary: Vocabulary;
  readonly #last = new WeakMap<CaseReading, { computed: Computed; made: WithComputed }>();

  constructor(vocabulary: Vocabulary) {
    this.#vocabulary = vocabulary;
  }

  /** The reading itself where nothing is to be worked out. A later column sees those before it. */
  of(reading: CaseReading, computed: Computed): WithComputed {
    if (computed.size === 0) return { reading, faults: new Map() };
    const before = this.#last.get(reading);
    if (before !== undefined && isSame(before.computed, computed)) return before.made;
    const made = this.#worked(reading, computed);
    this.#last.set(reading, { computed, made });
    return made;
  }

  #worked(read: CaseReading, computed: Computed): WithComputed {
    const faults = new Map<string, readonly Problem[]>();
    let reading = read;
    for (const [name, working] of computed) {
      const made = this.#column({ reading, faults }, name, working);
      if ("faults" in made) faults.set(name, made.faults);
      else reading = { ...reading, cases: made.cases };
    }
    if (faults.size === 0) return { reading, faults };
    return {
      reading: {
        ...reading,
        problems: [...read.problems, ...[...faults.values()].flat()],
        computedFaults: faults,
      },
      faults,
    };
  }

  #column(
    { reading, faults }: WithComputed,
    name: string,
    working: string,
  ): { readonly cases: Table } | { readonly faults: readonly Problem[] } {
    if (!isName(name)) return { faults: [notAName(name)] };
    if (reading.cases.positions.has(name)) return { faults: [nameTaken(name)] };
    const alone = parse(working).problems;
    const { tree, problems } = parse(`with_column(cases, ${name}: ${working}\n)`);
    if (alone.length > 0 || tree === null || problems.length > 0) {
      return { faults: (alone.length > 0 ? alone : problems).map(at(name, working)) };
    }
    const cell = (asked: string) => (asked === "cases" ? casesThing(reading) : undefined);
    const outcome = evaluate(tree, { vocabulary: this.#vocabulary, cell });
    if (!outcome.ok) {
      const rooted = outcome.problems.map((problem) => rootedIn(problem, faults));
      return { faults: rooted.map(at(name, working)) };
    }
    const { value } = outcome;
    if (value.kind !== "thing" || value.of !== "table") {
      throw new Error("a column was worked out into no table");
    }
    return { cases: (value.content as TableValue).table };
  }
}

/** A fault of a working as a query about its column; its place in the working is not kept. */
function at(field: string, working: string): (problem: Problem) => Problem {
  return ({ code, message, expected, remedy }) => ({
    ...{ code, message, severity: "query", place: { field }, found: working },
    ...(expected !== undefined && { expected }),
    ...(remedy !== undefined && { remedy }),
  });
}

function notAName(name: string): Problem {
  return {
    code: "computed-not-a-name",
    severity: "query",
    place: { field: name },
    message: "A computed column needs a name that workings can write.",
    found: name,
    expected: "letters, digits and _, beginning with a letter",
  };
}

function nameTaken(name: string): Problem {
  return {
    code: "computed-name-taken",
    severity: "query",
    place: { field: name },
    message: "The file has a column of this name, so that none is computed.",
    found: name,
    expected: "a name that no other column has",
    remedy: "give the computed column another name",
  };
}
