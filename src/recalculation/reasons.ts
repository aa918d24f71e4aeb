import { isSame } from "./is-same.ts";
import type { CellPlan } from "./plan-cells.ts";

export const isNew = "it is new on the sheet";
export const wasEdited = "its working was edited";

/** Why a cell must be planned anew, in words, or null where the plan is the same. */
export function replanned(before: CellPlan, after: CellPlan): string | null {
  if (before.working !== after.working) return wasEdited;
  const had = [...before.certain, ...before.perhaps];
  const has = [...after.certain, ...after.perhaps];
  const added = has.filter((name) => !had.includes(name));
  const removed = had.filter((name) => !has.includes(name));
  if (added.length > 0) return happened(added, "added");
  if (removed.length > 0) return happened(removed, "removed");
  return isSame(before.problems, after.problems) && isSame([...before.closing], [...after.closing])
    ? null
    : "other cells of the sheet changed";
}

/** "failure_means changed", "failure_means and window changed". */
export function changed(names: readonly string[]): string {
  return `${listed(names)} changed`;
}

function happened(names: readonly string[], what: "added" | "removed"): string {
  return `${listed(names)} ${names.length === 1 ? "was" : "were"} ${what}`;
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}
