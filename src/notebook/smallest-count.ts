import type { Problem } from "../problem/problem.ts";
import type { FrontMatterPlaces } from "./front-matter-places.ts";
import type { YamlNode } from "./yaml-door.ts";

/** Smallest count that leaves the department where neither notebook nor reader says another. */
export const usualSmallestCount = 5;

/**
 * `smallest_count: 10` of the front matter: the smallest count that a report to share shows, from 2
 * to 9999. Undefined where it is not said, or is no such number, which is a problem.
 */
export function smallestCountOf(
  value: YamlNode | undefined,
  places: FrontMatterPlaces,
  problems: Problem[],
): number | undefined {
  if (value === undefined) return undefined;
  const written = value.type === "text" ? value.text : "-";
  if (written === "") return undefined;
  if (/^\d{1,4}$/.test(written) && Number(written) >= 2) return Number(written);
  problems.push(places.wrongKind(value, "smallest_count: a whole number of 2 or more, such as 5"));
  return undefined;
}
