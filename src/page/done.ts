import type { Problem } from "../problem/problem.ts";

/** What the worker says of an act that changes the notebook or the cases. */
export interface Done {
  /** False where nothing was changed; the problems say why. */
  readonly done: boolean;
  readonly problems: readonly Problem[];
}
