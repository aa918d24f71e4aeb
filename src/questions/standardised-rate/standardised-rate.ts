import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { outcomeAt } from "../../outcomes/outcome-at.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Answer, LeftOut } from "../answer.ts";
import { leftOutOf, PickBook, pickRecord } from "../answering/answered-eyes.ts";
import {
  comparingPeople,
  manyLeftOut,
  manyNotKnown,
  pairedEyes,
  smallNumbers,
  whatWasAssumed,
} from "../answering/cautions.ts";
import {
  againstParameter,
  type ChosenGroups,
  chosenGroups,
  groupsParameter,
  setAside,
} from "../answering/chosen-groups.ts";
import { severalComparisons } from "../answering/comparison-cautions.ts";
import { groupEyes, notRecorded } from "../answering/grouping.ts";
import { timeIn } from "../answering/time-words.ts";
import { windowOf } from "../answering/window.ts";
import { termsParameter } from "../modelling/bound-term.ts";
import {
  fewFailuresPerColumn,
  groupsWithoutOverlap,
  standardisedOnRecord,
} from "../modelling/model-cautions.ts";
import { type ModelData, modelData } from "../modelling/model-data.ts";
import { termNames } from "../modelling/model-effects.ts";
import {
  byParameter,
  durationGiven,
  eyesGiven,
  eyesParameter,
  numberGiven,
  question,
  textGiven,
  type Worked,
  withinParameter,
} from "../question.ts";
import type { Resampling } from "./resampled-intervals.ts";
import { standardise } from "./standardise.ts";
import {
  drawnStandardised,
  type StandardisedParts,
  standardisedFigures,
  standardisedSentence,
  standardisedTable,
} from "./standardised-rate-parts.ts";

const intervals = ["delta", "bootstrap"] as const;
const usualSeed = 1;
const usualReplicates = 1000;

/**
 * How often would each have failed over the same eyes? Failure rates by group standardised to the
 * case mix of all eyes compared (regression standardisation, Lane and Nelder 1982): a logistic
 * model of group and terms among eyes whose outcome is known, its predicted risks averaged over all
 * of them as if all were in each group. Limits by the delta method, robust by patient where
 * patients give two eyes, or by a bootstrap of patients from a stated seed.
 */
export const standardisedRate = question(
  {
    name: "standardised_rate",
    meaning: "failure rates by group, standardised to the case mix of all eyes compared",
    asks: "How often would each have failed over the same eyes?",
    example: "standardised_rate(eyes, by: technique, age, pvr_grade, within: 12 months)",
    parameters: [
      eyesParameter,
      { ...byParameter, required: true, byNameOnly: true, meaning: "the groups to standardise" },
      { ...withinParameter, byNameOnly: true },
      { ...groupsParameter, byNameOnly: true },
      { ...againstParameter, byNameOnly: true },
      {
        ...byName("interval", "the method of the 95% interval", ["text"], `"${intervals[0]}"`),
        choices: intervals,
      },
      byName("seed", "where the resamples of the bootstrap start", ["number"], `${usualSeed}`),
      byName("replicates", "how many resamples", ["number"], `${usualReplicates}`),
      byName(
        "tolerance",
        "how early the visit that ends the window may come",
        ["duration"],
        "0 days",
      ),
      termsParameter,
    ],
  },
  work,
);

function byName(name: string, meaning: string, kinds: string[], whenLeftOut: string): Parameter {
  return { name, meaning, takes: "value", kinds, required: false, whenLeftOut, byNameOnly: true };
}

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const windowed = windowOf(record, given);
  const grouped = groupEyes(record, given.rows.get("by"));
  const resampling = resamplingGiven(given);
  const problems = [windowed, grouped, resampling].flatMap((each) =>
    "problems" in each ? each.problems : [],
  );
  if ("problems" in windowed || "problems" in grouped || "problems" in resampling) {
    return { problems };
  }
  const found = chosenGroups(grouped.grouping, given);
  if ("problems" in found) return found;
  if (found.chosen.grouping.groups.length < 2) return { problems: [oneGroup(found.chosen, given)] };
  return standardised(found.chosen, { record, given, ...windowed, ...resampling });
}

interface Asked {
  readonly record: EyeRecord;
  readonly given: GivenArguments;
  readonly window?: TimeWindow;
  readonly resampling?: Resampling;
}

function standardised(chosen: ChosenGroups, asked: Asked): Worked {
  const { record, given, window, resampling } = asked;
  const { grouping, reference } = chosen;
  const { groups } = grouping;
  const { hasFailed, isKnown } = outcomesOf(record, window, given);
  const eyes = groups.flatMap((group) => group.eyes).sort((a, b) => a - b);
  const model = modelData(record, eyes.filter(isKnown), given);
  if ("problems" in model) return model;
  const { data } = model;
  const made = standardise({ data, groups, reference, hasFailed, resampling, given });
  if ("problems" in made) return made;
  const parts: StandardisedParts = {
    record,
    window,
    grouping,
    data,
    standardised: made.standardised,
    reference: groups[reference]?.label ?? "",
    hasFailed,
    seed: resampling?.seed,
  };
  return answer(parts, { chosen, unknown: eyes.filter((eye) => !isKnown(eye)) });
}

/** Undefined for the delta method. A seed or a number of resamples out of range is a problem. */
function resamplingGiven(
  given: GivenArguments,
): { readonly resampling?: Resampling } | { readonly problems: readonly Problem[] } {
  if (textGiven(given, "interval", intervals[0] as string) !== "bootstrap") return {};
  const seed = numberGiven(given, "seed") ?? usualSeed;
  const replicates = numberGiven(given, "replicates") ?? usualReplicates;
  const wrong = [
    { name: "seed", value: seed, least: 0, most: 2 ** 32 - 1 },
    { name: "replicates", value: replicates, least: 200, most: 20_000 },
  ].filter(({ value, least, most }) => !Number.isInteger(value) || value < least || value > most);
  if (wrong.length === 0) return { resampling: { seed, replicates } };
  return {
    problems: wrong.map(({ name, value, least, most }) => ({
      code: "resampling-out-of-range",
      severity: "stop",
      place: { span: given.values.get(name)?.span ?? given.span },
      message: `${name} is ${value}`,
      found: String(value),
      expected: `a whole number from ${least} to ${most}`,
    })),
  };
}

function outcomesOf(record: EyeRecord, window: TimeWindow | undefined, given: GivenArguments) {
  const tolerance = durationGiven(given, "tolerance");
  const at = {
    ...(window === undefined ? {} : { time: window.length }),
    tolerance: tolerance === undefined ? 0 : timeIn(record.timeUnit, tolerance),
  };
  const outcomes = Array.from(record.time, (_, eye) => outcomeAt(record, eye, at));
  return {
    hasFailed: (eye: number) => outcomes[eye] === "failed",
    isKnown: (eye: number) => outcomes[eye] !== "not known",
  };
}

function oneGroup({ grouping }: ChosenGroups, given: GivenArguments): Problem {
  return {
    code: "one-group",
    severity: "stop",
    place: { span: given.rows.get("by")?.span ?? given.span },
    message: `by ${grouping.label} there is only ${grouping.groups[0]?.label ?? "none"}`,
    expected: "at least two groups",
  };
}

function answer(
  parts: StandardisedParts,
  about: { readonly chosen: ChosenGroups; readonly unknown: readonly number[] },
): Worked {
  const { record, data, window } = parts;
  const picks = new PickBook();
  const { chosen, unknown } = about;
  const by = { label: chosen.grouping.label ?? "", picks, key: "other" };
  const silentGroup = chosen.others.filter(({ label }) => label === notRecorded);
  const unwanted = chosen.others.filter(({ label }) => label !== notRecorded);
  const unrecorded = [
    ...leftOutOf(record),
    ...setAside(silentGroup, { ...by, key: "silent" }),
    ...data.silent.map(({ reason, eyes }, i) => openable(picks, { key: `term${i}`, reason, eyes })),
  ];
  const reason = `outcome${window === undefined ? "" : ` at ${window.text}`} not known`;
  const notKnown =
    unknown.length === 0 ? [] : [openable(picks, { key: "unknown", reason, eyes: unknown })];
  return {
    answered: {
      answer: {
        question: "standardised_rate",
        asks: "How often would each have failed over the same eyes?",
        sentence: standardisedSentence(parts),
        table: standardisedTable(parts, picks),
        chart: { draw: "intervals", intervals: drawnStandardised(parts) },
        cautions: cautionsOf(parts, { unrecorded, unknown: unknown.length }),
        unit: "eyes",
        used: data.eyes.length,
        leftOut: [...unrecorded, ...notKnown, ...setAside(unwanted, by)],
        figures: standardisedFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function openable(
  picks: PickBook,
  { key, reason, eyes }: { key: string; reason: string; eyes: readonly number[] },
): LeftOut {
  const pick = picks.add(key, reason, eyes);
  return { reason, count: eyes.length, ...(pick === undefined ? {} : { pick }) };
}

function cautionsOf(
  parts: StandardisedParts,
  { unrecorded, unknown }: { unrecorded: readonly LeftOut[]; unknown: number },
): Answer["cautions"] {
  const { record, data, standardised, grouping, hasFailed } = parts;
  const { groups, failures, columns } = standardised;
  const rarer = Math.min(failures, data.eyes.length - failures);
  const sizes = groups.map(({ label, eyes }) => ({
    label,
    eyes: eyes.length,
    failed: eyes.filter(hasFailed).length,
  }));
  return [
    ...fewFailuresPerColumn(rarer, columns),
    ...smallNumbers(sizes),
    ...standardisedOnRecord(termNames(data)),
    ...groupsWithoutOverlap(lackingOf(data, groups)),
    ...comparingPeople([...grouping.by, ...data.by]),
    ...severalComparisons(groups.length - 1),
    ...manyNotKnown(unknown, unknown + data.eyes.length),
    ...whatWasAssumed(record, [...grouping.by, ...data.by]),
    ...manyLeftOut(unrecorded, data.eyes.length),
    ...(data.cluster === undefined ? pairedEyes(record) : []),
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
