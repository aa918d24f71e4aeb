import { check } from "../formula/check.ts";
import { namesIn } from "../formula/names-in.ts";
import { parse } from "../formula/parse.ts";
import { childrenOf, type Node } from "../formula/tree.ts";
import type { Vocabulary } from "../formula/vocabulary.ts";
import type { Problem, Span } from "../problem/problem.ts";
import { type CellOrder, type Feeds, orderOfCells } from "./order-of-cells.ts";

/** A cell as the notebook defines it. */
export interface CellText {
  readonly name: string;
  readonly working: string;
  /** Why it cannot be worked out whatever its working says: its name is written twice. */
  readonly problems?: readonly Problem[];
}

/** A cell ready to be worked out, or what stands against it before anything is worked out. */
export interface CellPlan extends Feeds {
  readonly name: string;
  readonly working: string;
  readonly tree: Node | null;
  readonly problems: readonly Problem[];
}

export interface PlanningContext {
  readonly vocabulary: Vocabulary;
  /** Names of the inputs: `cases`. */
  readonly inputs: ReadonlySet<string>;
}

/** Plans every cell. Names must differ. */
export class Planner {
  readonly #context: PlanningContext;
  /** Workings that were read already, by their text. */
  #read = new Map<string, ReadWorking>();

  constructor(context: PlanningContext) {
    this.#context = context;
  }

  plan(cells: readonly CellText[]): CellPlan[] {
    const { vocabulary, inputs } = this.#context;
    const read = new Map(cells.map(({ working }) => [working, this.#readOf(working)]));
    this.#read = read;
    const named = cells.map(({ name, working }) => ({ name, ...read.get(working)! }));
    const order = orderOfCells(named, inputs);
    const known = new Set([...cells.map((cell) => cell.name), ...inputs]);
    return cells.map((cell) => {
      const { tree, problems } = read.get(cell.working)!;
      const own = [...(cell.problems ?? []), ...inputHidden(cell.name, inputs), ...problems];
      const found =
        problems.length > 0 || tree === null ? [] : check(tree, { vocabulary, cells: known });
      const all = [...own, ...found, ...namesMissed(cell.name, tree, [order, found])];
      const placed = all.map((problem) => inCell(problem, cell.name));
      const { name, working } = cell;
      return { name, working, tree, problems: placed, ...order.feeds.get(name)! };
    });
  }

  #readOf(working: string): ReadWorking {
    const before = this.#read.get(working);
    if (before !== undefined) return before;
    const { tree, problems } = parse(working);
    const none = { certain: new Set<string>(), perhaps: new Set<string>() };
    const names = tree === null ? none : namesIn(tree, this.#context.vocabulary);
    return { tree, problems, ...names };
  }
}

interface ReadWorking {
  readonly tree: Node | null;
  readonly problems: readonly Problem[];
  readonly certain: ReadonlySet<string>;
  readonly perhaps: ReadonlySet<string>;
}

/** The cycle that a cell is on, told to it alone. */
export function cycleProblem(cell: string, way: readonly string[], span?: Span): Problem {
  const alone = way.length === 2;
  return {
    code: "cycle",
    severity: "stop",
    place: { cell, ...(span !== undefined && { span }) },
    message: alone
      ? `\`${cell}\` needs its own value.`
      : `\`${cell}\` needs its own value, by way of ${way.slice(1, -1).join(", ")}.`,
    found: way.join(" \u2192 "),
    expected: "cells that can be worked out one after another",
    remedy: alone
      ? "take the name out of its own working"
      : "take the next name out of the working of one of these cells",
  };
}

/** Cycles, and unknown names that the check of the working has not told already. */
function namesMissed(
  name: string,
  tree: Node | null,
  [order, told]: readonly [CellOrder, readonly Problem[]],
): Problem[] {
  const way = order.cycles.get(name);
  if (way !== undefined) return [cycleProblem(name, way, spanOf(tree, way[1]!))];
  const unknown = order.unknown.get(name) ?? [];
  return unknown
    .filter((other) => !told.some((problem) => problem.found === other.name))
    .map(({ name: found, nearest }) => {
      const span = spanOf(tree, found);
      return {
        code: "unknown-name",
        severity: "stop",
        place: span === undefined ? {} : { span },
        message: `no cell is called \`${found}\`.`,
        found,
        ...(nearest !== undefined && { remedy: `write \`${nearest}\``, replacement: nearest }),
      };
    });
}

function inputHidden(name: string, inputs: ReadonlySet<string>): Problem[] {
  if (!inputs.has(name)) return [];
  return [
    {
      code: "input-hidden",
      severity: "stop",
      place: {},
      message: `\`${name}\` is what the opened file is called, so no cell can have this name.`,
      found: name,
      remedy: "give the cell another name",
    },
  ];
}

/** Where a name is mentioned first. */
function spanOf(tree: Node | null, name: string): Span | undefined {
  if (tree === null) return undefined;
  if (tree.type === "name" && tree.name === name) return tree.span;
  for (const child of childrenOf(tree)) {
    const span = spanOf(child, name);
    if (span !== undefined) return span;
  }
  return undefined;
}

function inCell(problem: Problem, cell: string): Problem {
  return { ...problem, place: { ...problem.place, cell } };
}
