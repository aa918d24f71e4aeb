import type { Caution } from "../answer.ts";
import { listed } from "../answering/wording.ts";
import type { PooledGroup } from "./departments.ts";

/** Departments that may not tell when, or why, an eye of the groups failed. */
export function timesNotTold(groups: readonly PooledGroup[], what: "times" | "causes"): Caution[] {
  const untold = groups.flatMap(({ parts }) =>
    parts
      .filter(({ group, bounds }) => group?.[what] === undefined && bounds.failed.most > 0)
      .map(({ file }) => file.unit),
  );
  const units = [...new Set(untold)];
  if (units.length === 0) return [];
  const which = what === "times" ? "when eyes of every group failed" : "why eyes failed";
  return [
    {
      code: `${what}-not-told`,
      text: `${listed(units)} cannot tell ${which} without telling small counts: all that their counts allow is within the bounds.`,
    },
  ];
}
