import { type AggregatesFile, quantities } from "../../aggregates/aggregates-file.ts";
import type { AggregatesTold } from "../departments-protocol.ts";

/** How much a file of aggregates tells, and how much it withholds. */
export function aggregatesTold({ groups, smallest_count }: AggregatesFile): AggregatesTold {
  const counts = groups.flatMap((group) => quantities.map((name) => group[name]));
  const single = groups.filter(({ by }) => by.length < 2);
  const eyes = groups[0]?.eyes;
  const columns = groups.flatMap(({ by }) => by.map(({ column }) => column));
  return {
    ...(typeof eyes === "number" && { eyes }),
    smallestCount: smallest_count,
    counts: {
      all: counts.length,
      withheld: counts.filter((count) => typeof count !== "number").length,
    },
    timed: {
      all: single.length,
      withheld: single.filter(({ times }) => times === undefined).length,
    },
    by: [...new Set(columns)],
  };
}
