import type { GivenArguments } from "../../formula/vocabulary.ts";
import { nearestName } from "../../problem/nearest-name.ts";
import type { Problem } from "../../problem/problem.ts";
import { type Group, type Grouping, notRecorded } from "../answering/grouping.ts";
import { listed } from "../answering/wording.ts";
import { valueGiven } from "../question.ts";
import { othersAreOne } from "./one-person.ts";

/** A registry has more centres than a department has surgeons. */
export const mostUnits = 100;

/** The people compared, in the order of their codes. */
export interface PersonGroups {
  readonly label: string;
  readonly groups: readonly Group[];
  /** Eyes of which the record does not say whose they are. */
  readonly silent: readonly number[];
  /** The one person asked for alone. */
  readonly mine: string | undefined;
}

/** The groups as people; a `mine` that is none of them, or beside one other only, is a problem. */
export function personGroups(
  grouping: Grouping,
  given: GivenArguments,
): PersonGroups | { readonly problems: readonly Problem[] } {
  const groups = grouping.groups.filter(({ label }) => label !== notRecorded);
  const silent = grouping.groups.find(({ label }) => label === notRecorded)?.eyes ?? [];
  const value = valueGiven(given, "mine");
  const asked =
    value?.kind === "text"
      ? value.text
      : value?.kind === "number"
        ? String(value.number)
        : undefined;
  const labels = groups.map(({ label }) => label);
  const people = { label: grouping.label ?? "", groups, silent, mine: asked };
  if (asked === undefined) return people;
  const span = given.values.get("mine")?.span ?? given.span;
  if (labels.includes(asked)) {
    const person = { code: asked, eyes: [], others: [], otherPeople: labels.length - 1 };
    const alone = othersAreOne(person, span);
    return alone.length > 0 ? { problems: alone } : people;
  }
  const nearest = nearestName(asked, labels);
  return {
    problems: [
      {
        code: "no-such-group",
        severity: "stop",
        place: { span },
        message: `no eye is in the group "${asked}"`,
        found: asked,
        expected: `one of ${listed(labels.slice(0, 12))}`,
        ...(nearest === undefined ? {} : { remedy: `write "${nearest}"` }),
      },
    ],
  };
}
