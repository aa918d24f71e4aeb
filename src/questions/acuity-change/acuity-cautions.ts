import type { Caution } from "../answer.ts";
import { counted, listed } from "../answering/wording.ts";

/** Low vision whose number depends on the table. */
export function lowVisionByTable(acuities: number, table: string): Caution[] {
  if (acuities === 0) return [];
  return [
    {
      code: "low-vision-by-table",
      text: `${counted(acuities, "acuity is", "acuities are")} low vision with no measured logMAR: the table of ${table} gives the numbers, and another published table differs by up to 0.7 (35 letters) for hand movements. Compare means only under the same table; the median is moved less.`,
    },
  ];
}

/** Under twenty pairs in any of the groups compared. */
export function fewPairs(
  groups: readonly { readonly label: string; readonly pairs: number }[],
): Caution[] {
  const few = groups.filter(({ pairs }) => pairs < 20).map(({ label }) => label);
  if (few.length === 0) return [];
  const names = few.length > 4 ? `${few.slice(0, 4).join(", ")} and others` : listed(few);
  const which = groups.length === 1 ? "" : ` in ${names}`;
  return [
    {
      code: "small-numbers",
      text: `Small numbers${which}: fewer than 20 eyes with both acuities; the quartiles rest on few.`,
    },
  ];
}
