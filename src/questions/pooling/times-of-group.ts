import type { PooledGroup } from "./departments.ts";
import { type Side, timesOfFailures, untoldTimes } from "./placed-follow-up.ts";
import type { TimesAtSide } from "./share-failed.ts";

/** When the eyes of a group failed or were last seen, in each department, at either side of its bounds. */
export function timesOfGroup({ parts }: PooledGroup): TimesAtSide {
  return (side: Side) =>
    parts.map((part) =>
      part.group?.times === undefined ? untoldTimes(part, side) : timesOfFailures(part.group.times),
    );
}
