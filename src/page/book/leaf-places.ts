import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { Leaf } from "../act.ts";

interface Leaves extends ReactiveControllerHost, HTMLElement {}

export interface LeafGround {
  /** The leaf that is turned to. */
  leaf(): Leaf;
  /** What scrolls it: one thing in a wide window, another in a narrow one. */
  scrolled(): readonly Element[];
}

/** Each leaf is found again where it was left, and begins at its top. */
export class LeafPlaces implements ReactiveController {
  readonly #ground: LeafGround;
  readonly #places = new Map<Leaf, readonly number[]>();
  #leaf: Leaf | undefined;

  constructor(leaves: Leaves, ground: LeafGround) {
    this.#ground = ground;
    leaves.addController(this);
  }

  hostUpdate(): void {
    if (this.#leaf === undefined || this.#leaf === this.#ground.leaf()) return;
    const tops = this.#ground.scrolled().map(({ scrollTop }) => scrollTop);
    this.#places.set(this.#leaf, tops);
  }

  hostUpdated(): void {
    const leaf = this.#ground.leaf();
    if (leaf === this.#leaf) return;
    const isFirst = this.#leaf === undefined;
    this.#leaf = leaf;
    // What the leaf is made of is laid out by then.
    if (!isFirst) requestAnimationFrame(() => this.#scroll(leaf));
  }

  #scroll(leaf: Leaf): void {
    const tops = this.#places.get(leaf) ?? [];
    this.#ground.scrolled().forEach((each, i) => {
      each.scrollTop = tops[i] ?? 0;
    });
  }
}
