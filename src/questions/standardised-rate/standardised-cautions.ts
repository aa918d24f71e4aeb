import type { Answer, LeftOut } from "../answer.ts";
import {
  clusteredIntervals,
  comparingPeople,
  earlyVisits,
  manyLeftOut,
  manyNotKnown,
  pairedEyes,
  smallNumbers,
  whatWasAssumed,
} from "../answering/cautions.ts";
import { severalComparisons } from "../answering/comparison-cautions.ts";
import {
  fewFailuresPerColumn,
  groupsWithoutOverlap,
  hazardsNotProportional,
  smallGroupsAside,
  standardisedOnRecord,
} from "../modelling/model-cautions.ts";
import type { ModelData } from "../modelling/model-data.ts";
import { termNames } from "../modelling/model-effects.ts";
import type { StandardisedParts } from "./standardised-rate-parts.ts";

/** What the rates rest on, and what they do not allow for. */
export function standardisedCautions(
  parts: StandardisedParts,
  about: {
    readonly unrecorded: readonly LeftOut[];
    readonly unknown: number;
    /** Groups set aside because they are small. */
    readonly small: readonly string[];
  },
): Answer["cautions"] {
  const { unrecorded, unknown, small } = about;
  const { record, data, standardised, grouping, hasFailed, model } = parts;
  const { groups, failures, columns } = standardised;
  const spared = data.eyes.length - failures;
  const rarer = model === "Cox" ? failures : Math.min(failures, spared);
  const sizes = groups.map(({ label, eyes }) => ({
    label,
    eyes: eyes.length,
    failed: eyes.filter(hasFailed).length,
  }));
  return [
    ...fewFailuresPerColumn(rarer, columns),
    ...smallNumbers(sizes),
    ...smallGroupsAside(small),
    ...standardisedOnRecord(termNames(data)),
    ...groupsWithoutOverlap(lackingOf(data, groups)),
    ...comparingPeople([...grouping.by, ...data.by]),
    ...severalComparisons(groups.length - 1),
    ...hazardsNotProportional(standardised.proportional, "The effect of group or terms"),
    ...manyNotKnown(record, unknown, data.eyes.length + (model === "Cox" ? 0 : unknown)),
    ...(model === "Cox" ? [] : earlyVisits(record, parts)),
    ...whatWasAssumed(record, [...grouping.by, ...data.by]),
    ...manyLeftOut(unrecorded, data.eyes.length),
    ...pairedEyes(record, data.cluster === undefined ? undefined : clusteredIntervals),
  ];
}

/** "scleral buckle with PVR grade B": a level of a term of which a group has no eye. */
function lackingOf(
  { terms }: ModelData,
  groups: StandardisedParts["standardised"]["groups"],
): string[] {
  return groups.flatMap(({ label, eyes }) => {
    const members = new Set(eyes);
    return terms
      .filter(({ kind }) => kind === "groups")
      .flatMap((term) =>
        [...(term.reference === undefined ? [] : [term.reference]), ...term.levels]
          .filter((level) => !level.eyes.some((eye) => members.has(eye)))
          .map((level) => `${label} with ${term.label} ${level.text}`),
      );
  });
}
