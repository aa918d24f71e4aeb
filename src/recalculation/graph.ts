// The scheduler must be lent before the runtime loads: keep this import the first.
// biome-ignore assist/source/organizeImports: the order is the meaning
import { takeBack } from "./lent-scheduler.ts";
import { type Module, Runtime, type Variable } from "@observablehq/runtime";
import { inPieces } from "../statistics/long-work.ts";
import { ReadyQueue } from "./ready-queue.ts";

takeBack();

/** What a node of the graph reports. Neither function may throw. */
export interface NodeObserver {
  /** A computation of the node begins, with what its inputs will be. */
  begins(): void;
  /** The node has a value, new or as before. */
  has(value: unknown): void;
  /** The definition threw, which it must not. */
  fails(error: unknown): void;
}

/** One node: it is computed again whenever one of its inputs is. */
export interface GraphNode {
  define(inputs: readonly string[], compute: (inputs: readonly unknown[]) => unknown): void;
  delete(): void;
}

/** What a computation has to wait for, or nothing where it may begin, or go on amidst its work. */
export type Turn = () => Promise<void> | undefined;

/**
 * The only door to the Observable runtime. Nodes are named by the caller; their names in the
 * runtime are ours, so that none can be one of its own (`invalidation`, `visibility`) or reach a
 * global: an unknown name is our own bug and throws.
 */
export class Graph {
  readonly #turn: Turn;
  readonly #runtime = new Runtime(null, closed);
  readonly #module: Module = this.#runtime.module();
  readonly #ready = new ReadyQueue();

  /** `turn` may make a computation wait before it begins. */
  constructor(turn: Turn = () => undefined) {
    this.#turn = turn;
  }

  /** `place`: of all nodes that may be computed, that of the lowest is the next. */
  node(name: string, observer: NodeObserver, place: () => number): GraphNode {
    let begun = 0;
    const variable: Variable = this.#module.variable({
      pending: () => {
        begun += 1;
        observer.begins();
      },
      fulfilled: (value) => observer.has(value),
      rejected: (error) => observer.fails(error),
    });
    return {
      define: (inputs, compute) => {
        begun += 1;
        variable.define(inner(name), inputs.map(inner), (...values: never[]) => {
          const mine = begun;
          const current = () => (begun === mine ? compute(values) : undefined);
          return this.#ready.take(place, () => this.#inTurn(current));
        });
      },
      delete: () => {
        begun += 1;
        variable.delete();
      },
    };
  }

  /** At once where nothing has to be waited for; one overtaken meanwhile computes nothing. */
  #inTurn(compute: () => unknown): unknown {
    const wait = this.#turn();
    return wait === undefined
      ? inPieces(compute, this.#turn)
      : wait.then(() => this.#inTurn(compute));
  }

  /** Ends all computing. */
  dispose(): void {
    this.#runtime.dispose();
  }
}

function inner(name: string): string {
  return `cell ${name}`;
}

function closed(name: string): never {
  throw new Error(`the graph has no node named ${name}`);
}
