import type { Value } from "../formula/value.ts";
import type { Problem } from "../problem/problem.ts";

/**
 * How a cell of the sheet stands. A fault is a value with its root: a cell downstream says which
 * cells it waits for, not their fault as if it were its own.
 */
export type CellState =
  | { readonly status: "current"; readonly value: Value }
  | { readonly status: "recalculating" }
  | { readonly status: "waiting"; readonly waitsFor: readonly string[] }
  | { readonly status: "at fault"; readonly problems: readonly Problem[] };
