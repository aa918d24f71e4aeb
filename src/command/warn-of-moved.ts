import { minuteText } from "../report/minutes.ts";
import type { ReportedCell } from "../report/report-input.ts";
import type { Surroundings } from "./exit.ts";

/** Says of every minuted line that does not hold what it was, what it is, and why. */
export function warnOfMoved(
  cells: readonly ReportedCell[],
  speaker: Pick<Surroundings, "warn">,
): void {
  for (const { name, minuted } of cells) {
    const moved = minuted.filter(({ check }) => check.verdict !== "holds");
    for (const minute of moved) speaker.warn(`${name}: ${minuteText(minute)}\n`);
  }
}
