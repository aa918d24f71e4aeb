import type { Monitoring } from "../../../charts/monitoring.ts";
import { dayText } from "../../../formula/calendar.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { percent } from "../../answering/wording.ts";
import type { CountedPeriod } from "../periods/counted-period.ts";
import { periodPanel } from "../periods/period-table.ts";
import type { ChangeParts } from "./change-parts.ts";

/** Quarters on either side around the rate of that side; undefined where neither has one. */
export function drawnChange(
  { day, quarters: { before, after } }: ChangeParts,
  picks: PickBook,
): Monitoring | undefined {
  const drawn = [...before, ...after];
  if (drawn.length === 0) return undefined;
  drawn.forEach(({ label, judged: own, failedEyes }, i) => {
    picks.add(`t${i}:failed`, `${label}, failed`, failedEyes);
    picks.add(`t${i}:known`, `${label}, known`, own.known);
  });
  const centre = (side: readonly CountedPeriod[], from: number) => {
    const [first] = side;
    if (first === undefined) return [];
    const stretch = { from: from + 0.5, to: from + side.length + 0.5 };
    return [{ value: first.centre, ...stretch }];
  };
  return {
    places: drawn.map(({ label }) => label),
    across: "quarter",
    panels: [
      periodPanel(drawn, {
        title: `failure rate with limits of chance; dotted: ${[before, after].flatMap(([first]) => (first === undefined ? [] : percent(first.centre))).join(", then ")}`,
        references: [...centre(before, 0), ...centre(after, before.length)],
        breaks: [{ at: before.length + 0.5, label: dayText(day) }],
      }),
    ],
  };
}
