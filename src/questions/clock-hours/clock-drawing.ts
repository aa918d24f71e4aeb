import type { ClockRose, RoseGroup, RoseOfSide } from "../../charts/clock-rose.ts";
import type { Side } from "../../outcomes/clock-hours.ts";
import type { Caution } from "../answer.ts";
import { listed } from "../answering/wording.ts";
import { drawnGroups } from "../attachment-curve/drawn-groups.ts";
import { type ClockGroup, type ClockParts, ofSide } from "./clock-parts.ts";

/** More pairs of roses than these fill no page that anyone reads. */
const mostRoses = 6;

/** The roses of all eyes, or a pair for each group; the rows of the table have the same keys. */
export function drawnRose({ total, groups, inferior }: ClockParts): ClockRose {
  const drawn =
    groups.length === 0
      ? [{ eyes: sidesOf(total) }]
      : groupsOfRoses(groups).map(
          (group): RoseGroup => ({ label: group.label, eyes: sidesOf(group) }),
        );
  return { counted: "failed", inferior, groups: drawn };
}

/** Says which groups stand in the table alone. */
export function rosesNotDrawn({ groups }: ClockParts): Caution[] {
  const drawn = groupsOfRoses(groups);
  const left = groups.filter((group) => !drawn.includes(group)).map(({ label }) => label);
  if (left.length === 0) return [];
  return [
    {
      code: "groups-not-drawn",
      text: `Not drawn, with too few eyes: ${listed(left)}; they stand in the table.`,
    },
  ];
}

/** Those of ten eyes or more, of them the largest. */
function groupsOfRoses(groups: readonly ClockGroup[]): readonly ClockGroup[] {
  const large = drawnGroups(groups.filter(({ eyes }) => eyes.length > 0));
  const largest = [...large].sort((a, b) => b.eyes.length - a.eyes.length).slice(0, mostRoses);
  return large.filter((group) => largest.includes(group));
}

function sidesOf({ key, eyes, byHour }: ClockGroup): RoseOfSide[] {
  const sides: readonly Side[] = ["right", "left"];
  return sides.map((side) => ({
    side,
    total: eyes.filter((each) => each.side === side).length,
    hours: byHour.map((row) => {
      const { eyes: own, failed } = ofSide(row, side);
      return {
        hour: row.hour,
        eyes: own.length,
        failed: failed.length,
        ...(own.length === 0 ? {} : { pick: `${key}h${row.hour}:${side}` }),
        ...(failed.length === 0 ? {} : { failedPick: `${key}h${row.hour}:${side} failed` }),
      };
    }),
  }));
}
