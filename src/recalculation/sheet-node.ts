import type { Vocabulary } from "../formula/vocabulary.ts";
import type { CellState } from "./cell-state.ts";
import type { Graph, GraphNode } from "./graph.ts";
import { isSame } from "./is-same.ts";
import type { CellPlan } from "./plan-cells.ts";
import { changed } from "./reasons.ts";
import { internalError, type RestingState, workOut } from "./work-out.ts";

/** What a node needs from its sheet. */
export interface NodeContext {
  readonly graph: Graph;
  readonly vocabulary: Vocabulary;
  /** What happened to an input, in words; undefined for a cell. */
  inputBecause(name: string): string | undefined;
  /** Where the node stands on the sheet, from 0; an input before all cells. */
  placeOf(node: SheetNode): number;
  /** The node is worked out. */
  rests(node: SheetNode): void;
}

/** An input or a cell of the sheet: its state, what it rests on, and why it was worked out. */
export class SheetNode {
  readonly name: string;
  /** Its name in the graph: the name, unless a cell takes the name of an input. */
  readonly id: string;
  plan: CellPlan | undefined;
  recalculations = 0;
  because = "";
  readonly #context: NodeContext;
  readonly #node: GraphNode;
  #resting: RestingState = { status: "waiting", waitsFor: [] };
  /** The last outcome: the same object for as long as the outcome is the same. */
  #outcome: RestingState | undefined;
  #restsOn: ReadonlyMap<string, RestingState> = new Map();
  /** Why it must be worked out whatever feeds it. */
  #reason: string | null = null;
  /** Counts of marks: in all, when the computation began, and when the outcome was made. */
  #marked = 0;
  #begun = 0;
  #made = 0;

  constructor(name: string, id: string, context: NodeContext) {
    this.name = name;
    this.id = id;
    this.#context = context;
    const observer = {
      begins: () => {
        this.#begun = this.#marked;
      },
      has: (value: unknown) => this.#rest(value as RestingState),
      fails: (error: unknown) => this.#fail(error),
    };
    this.#node = context.graph.node(id, observer, () => context.placeOf(this));
  }

  get state(): CellState {
    return this.#made < this.#marked ? { status: "recalculating" } : this.#resting;
  }

  /** Names in the graph that feed it. */
  get inputs(): readonly string[] {
    if (this.plan === undefined || this.plan.problems.length > 0) return [];
    return [...this.plan.certain, ...this.plan.perhaps];
  }

  /** Names that feed it, without those that were columns when it was worked out last. */
  get feedsOn(): readonly string[] {
    const { certain = [], perhaps = [] } = this.plan ?? {};
    return [...certain, ...perhaps.filter((name) => this.#restsOn.has(name))];
  }

  /** Gives an input its state; false where it is the same as before. */
  give(state: RestingState, because: string): boolean {
    if (isSame(this.#outcome, state)) return false;
    this.#outcome = state;
    this.because = because;
    this.#node.define([], () => {
      this.#made = this.#begun;
      return state;
    });
    return true;
  }

  /** Has a cell worked out by a plan, and again whenever what feeds it changes. */
  follow(plan: CellPlan, reason: string): void {
    this.plan = plan;
    this.#reason = reason;
    const { inputs } = this;
    this.#node.define(inputs, (states) => {
      const outcome = this.#workOut(plan, new Map(inputs.map((name, i) => [name, states[i]])));
      this.#made = this.#begun;
      return outcome;
    });
  }

  /** What the node shows is no longer sure. */
  mark(): void {
    this.#marked += 1;
  }

  delete(): void {
    this.#node.delete();
  }

  /** Works the cell out, unless nothing that it rests on has changed. */
  #workOut(plan: CellPlan, states: ReadonlyMap<string, unknown>): RestingState {
    const fed = states as ReadonlyMap<string, RestingState>;
    const reason = this.#reason ?? this.#reasonIn(fed);
    if (reason === null && this.#outcome !== undefined) return this.#outcome;
    const { state, restsOn, evaluated } = workOut(plan, fed, this.#context.vocabulary);
    this.#reason = null;
    this.#restsOn = restsOn;
    this.because = reason ?? "";
    if (evaluated) this.recalculations += 1;
    if (this.#outcome === undefined || !isSame(this.#outcome, state)) this.#outcome = state;
    return this.#outcome;
  }

  #reasonIn(states: ReadonlyMap<string, RestingState>): string | null {
    const different = [...this.#restsOn].filter(([name, state]) => states.get(name) !== state);
    if (different.length === 0) return null;
    const names = different.map(([name]) => name);
    const happened = names.map((name) => this.#context.inputBecause(name));
    return happened.find((because) => because !== undefined) ?? changed(names);
  }

  /** An outcome from before the last mark is not shown: another is on its way. */
  #rest(state: RestingState): void {
    if (this.#made < this.#marked) return;
    this.#resting = state;
    this.#context.rests(this);
  }

  #fail(error: unknown): void {
    this.#made = this.#marked;
    this.#rest({ status: "at fault", problems: [internalError(this.name, error)] });
  }
}
