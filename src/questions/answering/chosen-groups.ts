import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import { nearestName } from "../../problem/nearest-name.ts";
import type { Problem } from "../../problem/problem.ts";
import type { LeftOut } from "../answer.ts";
import { valueGiven } from "../question.ts";
import type { PickBook } from "./answered-eyes.ts";
import { type Group, type Grouping, notRecorded } from "./grouping.ts";
import { openedReason } from "./opened-reason.ts";
import { listed } from "./wording.ts";

/** Which groups of a column are compared, and in which order. */
export const groupsParameter: Parameter = {
  name: "groups",
  meaning: "which groups to compare, in this order",
  takes: "value",
  kinds: ["list"],
  required: false,
  whenLeftOut: "all of them",
};

export const againstParameter: Parameter = {
  name: "against",
  meaning: "the group that the others are set against",
  takes: "value",
  kinds: ["text"],
  required: false,
  whenLeftOut: "the last of groups, else the largest",
};

/** Groups to compare: those asked for, else all that are recorded. */
export interface ChosenGroups {
  /** Only the chosen groups. */
  readonly grouping: Grouping;
  /** Position of the group that the others are set against; -1 where there is none. */
  readonly reference: number;
  /** Eyes of other groups, and eyes on which the record is silent. */
  readonly others: readonly Group[];
}

/** The groups that a comparison is of. A name that is no group is a problem. */
export function chosenGroups(
  grouping: Grouping,
  given: GivenArguments,
): { readonly chosen: ChosenGroups } | { readonly problems: readonly Problem[] } {
  const recorded = grouping.groups.filter(({ label }) => label !== notRecorded);
  const wanted = textsGiven(given, "groups");
  const against = textsGiven(given, "against")[0];
  const labels = recorded.map(({ label }) => label);
  const problems = [
    ...wanted.filter((name) => !labels.includes(name)).map((name) => ({ name, from: "groups" })),
    ...(against === undefined || labels.includes(against)
      ? []
      : [{ name: against, from: "against" }]),
  ].map(({ name, from }) => noSuchGroup(name, { labels, from, given }));
  if (problems.length > 0) return { problems };
  const names = wanted.length === 0 ? labels : [...new Set(wanted)];
  const all = against === undefined || names.includes(against) ? names : [...names, against];
  const groups = all.flatMap((name) => recorded.filter(({ label }) => label === name));
  const others = grouping.groups.filter((group) => !groups.includes(group));
  const reference =
    against === undefined ? defaultReference(groups, wanted.length > 0) : all.indexOf(against);
  return { chosen: { grouping: { ...grouping, groups }, reference, others } };
}

function textsGiven(given: GivenArguments, name: string): string[] {
  const value = valueGiven(given, name);
  if (value?.kind === "text") return [value.text];
  if (value?.kind !== "list") return [];
  return value.items.map((item) =>
    item.kind === "text" ? item.text : item.kind === "number" ? String(item.number) : "",
  );
}

function defaultReference(groups: readonly Group[], areNamed: boolean): number {
  if (areNamed) return groups.length - 1;
  const most = Math.max(0, ...groups.map(({ eyes }) => eyes.length));
  return groups.findIndex(({ eyes }) => eyes.length === most);
}

function noSuchGroup(
  name: string,
  at: { labels: readonly string[]; from: string; given: GivenArguments },
): Problem {
  const nearest = nearestName(name, at.labels);
  return {
    code: "no-such-group",
    severity: "stop",
    place: { span: at.given.values.get(at.from)?.span ?? at.given.span },
    message: `no eye is in the group "${name}"`,
    found: name,
    expected: `one of ${listed(at.labels.slice(0, 12))}`,
    ...(nearest === undefined ? {} : { remedy: `write "${nearest}"` }),
  };
}

/** The groups without those of fewer than `least` eyes, unless the reader named the groups. */
export function withoutSmall(
  chosen: ChosenGroups,
  least: number,
  given: GivenArguments,
): ChosenGroups {
  const { groups } = chosen.grouping;
  const large = groups.filter(({ eyes }) => eyes.length >= least);
  if (given.values.has("groups") || large.length < 2) return chosen;
  const reference = groups[chosen.reference];
  if (reference === undefined || !large.includes(reference)) return chosen;
  const small = groups.filter((group) => !large.includes(group));
  return {
    grouping: { ...chosen.grouping, groups: large },
    reference: large.indexOf(reference),
    others: [...chosen.others, ...small],
  };
}

/** Eyes that a comparison sets aside, each reason leading to its eyes. */
export function setAside(
  others: readonly Group[],
  by: { readonly label: string; readonly picks: PickBook; readonly key: string },
): LeftOut[] {
  return others.map((group, position) => {
    const isSilent = group.label === notRecorded;
    const reason = isSilent ? `${by.label} not recorded` : `${by.label} is ${group.label}`;
    return openedReason(by.picks, { key: `${by.key}${position}`, reason, eyes: group.eyes });
  });
}
