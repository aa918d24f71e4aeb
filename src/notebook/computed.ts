import type { Problem } from "../problem/problem.ts";
import type { FrontMatterPlaces } from "./front-matter-places.ts";
import type { YamlNode } from "./yaml-door.ts";

/** Columns that are worked out from others in every row of the cases: name, then working. */
export type Computed = ReadonlyMap<string, string>;

/**
 * `computed:` of the front matter, a working under the name of each column. Empty where it is not
 * said; what is no text is a problem.
 */
export function computedOf(
  value: YamlNode | undefined,
  places: FrontMatterPlaces,
  problems: Problem[],
): Computed {
  const computed = new Map<string, string>();
  if (value === undefined || (value.type === "text" && value.text === "")) return computed;
  if (value.type !== "map") {
    problems.push(places.wrongKind(value, "a name and its working, one a line"));
    return computed;
  }
  for (const { key, value: working } of value.entries) {
    if (working.type === "text" && working.text !== "") computed.set(key.text, working.text);
    else problems.push(places.wrongKind(working, `${key.text}: a working, such as age >= 70`));
  }
  return computed;
}
