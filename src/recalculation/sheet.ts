import type { Value } from "../formula/value.ts";
import type { Vocabulary } from "../formula/vocabulary.ts";
import type { CellState } from "./cell-state.ts";
import { withComputedFaults } from "./computed-at-fault.ts";
import { Graph, type Turn } from "./graph.ts";
import { staleAfter } from "./order-of-cells.ts";
import { type CellPlan, type CellText, Planner } from "./plan-cells.ts";
import { isNew, replanned } from "./reasons.ts";
import { type NodeContext, SheetNode } from "./sheet-node.ts";
import type { RestingState } from "./work-out.ts";

/** Hears of every change of a cell's state, `recalculating` among them. */
export type Listener = (name: string, state: CellState) => void;

/** Named cells that recalculate together. */
export interface Sheet {
  /** The cells in reading order, in place of those before; only what differs is worked out. */
  setCells(cells: readonly CellText[]): void;
  /**
   * Gives an input its value; without one, all that it feeds waits for it. `because` says in words
   * what happened ("cases were opened").
   */
  setInput(name: string, value: Value | undefined, because?: string): void;
  /** When nothing is being worked out any more. Rejects with the error of a listener that threw. */
  settled(): Promise<void>;
  /** Throws where there is no such cell or input. */
  state(name: string): CellState;
  /** The cells in reading order; inputs are not among them. */
  names(): string[];
  /** What feeds a cell directly and what it feeds; columns of row expressions are not cells. */
  feeds(name: string): { readonly from: string[]; readonly to: string[] };
  /** How often the cell's working was worked out. */
  recalculations(name: string): number;
  /** Why it was last worked out, in words; empty where it never was. */
  because(name: string): string;
  /** Calls the listener from now on; what it gives back ends that. */
  observe(listener: Listener): () => void;
  /** Ends all work. */
  dispose(): void;
}

/**
 * A sheet without cells, over a vocabulary, with the names of what it is fed from outside. `turn`
 * may make a cell wait before it is worked out.
 */
export function createSheet(
  vocabulary: Vocabulary,
  inputs: ReadonlySet<string> = new Set(["cases"]),
  turn?: Turn,
): Sheet {
  return new GraphSheet({ vocabulary, inputs }, new Graph(turn));
}

interface FedBy {
  readonly vocabulary: Vocabulary;
  readonly inputs: ReadonlySet<string>;
}

class GraphSheet implements Sheet {
  readonly #planner: Planner;
  readonly #graph: Graph;
  readonly #context: NodeContext;
  readonly #inputs: ReadonlyMap<string, SheetNode>;
  #cells: ReadonlyMap<string, SheetNode> = new Map();
  #places: ReadonlyMap<SheetNode, number> = new Map();
  readonly #pending = new Set<SheetNode>();
  readonly #listeners = new Set<Listener>();
  #waiting: (() => void)[] = [];
  #errors: unknown[] = [];

  constructor({ vocabulary, inputs }: FedBy, graph: Graph) {
    this.#graph = graph;
    this.#planner = new Planner({ vocabulary, inputs });
    this.#context = {
      graph: this.#graph,
      vocabulary,
      inputBecause: (name) => this.#inputs.get(name)?.because,
      placeOf: (node) => this.#places.get(node) ?? -1,
      rests: (node) => this.#settle(node),
    };
    this.#inputs = new Map(
      [...inputs].map((name) => [name, new SheetNode(name, name, this.#context)]),
    );
    for (const name of inputs) this.setInput(name, undefined);
  }

  setCells(cells: readonly CellText[]): void {
    const before = this.#cells;
    const plans = this.#planner.plan(cells);
    this.#cells = new Map(plans.map(({ name }) => [name, before.get(name) ?? this.#node(name)]));
    this.#places = new Map([...this.#cells.values()].map((node, place) => [node, place]));
    const edited = plans.map((plan) => this.#follow(plan)).filter((node) => node !== null);
    for (const [name, node] of before) if (!this.#cells.has(name)) this.#drop(node);
    this.#mark(edited);
  }

  setInput(name: string, value: Value | undefined, because = `${name} changed`): void {
    const state: RestingState =
      value === undefined ? { status: "waiting", waitsFor: [name] } : { status: "current", value };
    const input = this.#inputs.get(name);
    if (input === undefined) throw new Error(`the sheet has no input named ${name}`);
    if (input.give(state, because)) this.#mark([input]);
  }

  async settled(): Promise<void> {
    while (this.#pending.size > 0) {
      await new Promise<void>((resolve) => this.#waiting.push(resolve));
    }
    const errors = this.#errors;
    this.#errors = [];
    if (errors.length > 0) throw errors[0];
  }

  state(name: string): CellState {
    return withComputedFaults(this.#at(name).state, this.#inputs.get("cases")?.state);
  }

  names(): string[] {
    return [...this.#cells.keys()];
  }

  feeds(name: string): { readonly from: string[]; readonly to: string[] } {
    const to = [...this.#cells.values()].filter((node) => node.feedsOn.includes(name));
    return { from: [...this.#at(name).feedsOn], to: to.map((node) => node.name) };
  }

  recalculations(name: string): number {
    return this.#at(name).recalculations;
  }

  because(name: string): string {
    return this.#at(name).because;
  }

  observe(listener: Listener): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  dispose(): void {
    this.#graph.dispose();
    this.#listeners.clear();
    this.#pending.clear();
    this.#rest();
  }

  #at(name: string): SheetNode {
    const node = this.#cells.get(name) ?? this.#inputs.get(name);
    if (node === undefined) throw new Error(`the sheet has no cell named ${name}`);
    return node;
  }

  /** A cell that takes the name of an input is told so; the input keeps its place. */
  #node(name: string): SheetNode {
    const id = this.#inputs.has(name) ? `${name} (cell)` : name;
    return new SheetNode(name, id, this.#context);
  }

  /** Gives a cell its plan; null where it has the same one already. */
  #follow(plan: CellPlan): SheetNode | null {
    const node = this.#cells.get(plan.name)!;
    const reason = node.plan === undefined ? isNew : replanned(node.plan, plan);
    if (reason === null) return null;
    node.follow(plan, reason);
    return node;
  }

  #drop(node: SheetNode): void {
    node.delete();
    this.#pending.delete(node);
  }

  /** Shows all that depends on these nodes as being worked out. */
  #mark(changed: readonly SheetNode[]): void {
    const nodes = new Map(
      [...this.#inputs.values(), ...this.#cells.values()].map((node) => [node.id, node]),
    );
    const edges = new Map([...nodes].map(([id, node]) => [id, node.inputs]));
    const stale = [
      ...staleAfter(
        edges,
        changed.map((node) => node.id),
      ),
    ].map((id) => nodes.get(id)!);
    for (const node of stale) {
      node.mark();
      this.#pending.add(node);
    }
    for (const node of stale) this.#tell(node);
    this.#rest();
  }

  #settle(node: SheetNode): void {
    this.#pending.delete(node);
    this.#tell(node);
    this.#rest();
  }

  #tell(node: SheetNode): void {
    for (const listener of this.#listeners) {
      try {
        listener(node.name, node.state);
      } catch (error) {
        this.#errors.push(error);
      }
    }
  }

  #rest(): void {
    if (this.#pending.size > 0) return;
    const waiting = this.#waiting;
    this.#waiting = [];
    for (const resolve of waiting) resolve();
  }
}
