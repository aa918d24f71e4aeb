import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { outcomeAt } from "../../outcomes/outcome-at.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Problem } from "../../problem/problem.ts";
import { leftOutOf, PickBook, pickRecord } from "../answering/answered-eyes.ts";
import {
  againstParameter,
  type ChosenGroups,
  chosenGroups,
  groupsParameter,
  setAside,
  withoutSmall,
} from "../answering/chosen-groups.ts";
import { groupEyes, notRecorded } from "../answering/grouping.ts";
import { openedReason } from "../answering/opened-reason.ts";
import { toleranceGiven, windowOf } from "../answering/window.ts";
import { rateOfGroup } from "../failure-rate/rate-of-group.ts";
import { termsParameter } from "../modelling/bound-term.ts";
import { modelData } from "../modelling/model-data.ts";
import {
  byParameter,
  eyesGiven,
  eyesParameter,
  question,
  type Worked,
  withinParameter,
} from "../question.ts";
import {
  coxRefusals,
  intervals,
  type Model,
  modelFor,
  models,
  resamplingGiven,
  usualReplicates,
  usualSeed,
  wrongResampling,
} from "./asked-model.ts";
import { standardise } from "./standardise.ts";
import { standardisedCautions } from "./standardised-cautions.ts";
import {
  drawnStandardised,
  type StandardisedParts,
  standardisedBrief,
  standardisedFigures,
  standardisedSentence,
  standardisedTable,
} from "./standardised-rate-parts.ts";

/** A group of fewer eyes would be missing from many a resample. */
const leastEyes = 10;

/**
 * How often would each have failed over the same eyes? Failure rates by group standardised to the
 * case mix of all eyes compared (regression standardisation, Lane and Nelder 1982): the predicted
 * risks of all eyes, averaged as if all were in each group. The model of group and terms is Cox's
 * where outcomes at the window are not known, since the share among the known runs high; else
 * logistic. Limits by a bootstrap of patients from a stated seed, or for the logistic model by the
 * delta method, robust by patient where patients give two eyes. Groups under ten eyes are set aside
 * unless they are named.
 */
export const standardisedRate = question(
  {
    name: "standardised_rate",
    meaning: "failure rates by group, standardised to the case mix of all eyes compared",
    asks: "How often would each have failed over the same eyes?",
    example: "standardised_rate(eyes, age, pvr_grade, by: technique)",
    parameters: [
      eyesParameter,
      { ...byParameter, required: true, byNameOnly: true, meaning: "the groups to standardise" },
      { ...withinParameter, byNameOnly: true },
      { ...groupsParameter, byNameOnly: true },
      { ...againstParameter, byNameOnly: true },
      { ...byName("model", "the model of failure", ["text"], `"${models[0]}"`), choices: models },
      {
        ...byName(
          "interval",
          "the method of the 95% interval",
          ["text"],
          '"delta", for Cox "bootstrap"',
        ),
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
  const wrong = wrongResampling(given);
  const problems = [
    ...[windowed, grouped].flatMap((each) => ("problems" in each ? each.problems : [])),
    ...wrong,
  ];
  if ("problems" in windowed || "problems" in grouped || wrong.length > 0) return { problems };
  const found = chosenGroups(grouped.grouping, given);
  if ("problems" in found) return found;
  const chosen = withoutSmall(found.chosen, leastEyes, given);
  const { groups } = chosen.grouping;
  if (groups.length < 2) return { problems: [oneGroup(chosen, given)] };
  const outcomes = outcomesOf(record, windowed.window, given);
  const eyes = groups.flatMap((group) => group.eyes).sort((a, b) => a - b);
  const unknown = eyes.filter((eye) => !outcomes.isKnown(eye));
  const model = modelFor(given, { unknown: unknown.length, ...windowed });
  const asked = { record, given, outcomes, unknown, model, ...windowed };
  const refused = model === "Cox" ? coxRefusals(given, windowed.window) : [];
  if (refused.length > 0) return { problems: refused };
  return standardised(chosen, eyes, asked);
}

interface Asked {
  readonly record: EyeRecord;
  readonly given: GivenArguments;
  readonly window?: TimeWindow;
  readonly outcomes: ReturnType<typeof outcomesOf>;
  /** Eyes whose outcome at the window is not known. */
  readonly unknown: readonly number[];
  readonly model: Model;
}

function standardised(chosen: ChosenGroups, eyes: readonly number[], asked: Asked): Worked {
  const { record, given, window, outcomes, model } = asked;
  const { grouping, reference } = chosen;
  const { groups } = grouping;
  const { hasFailed, isKnown } = outcomes;
  const found = modelData(record, model === "Cox" ? eyes : eyes.filter(isKnown), given);
  if ("problems" in found) return found;
  const { data } = found;
  const until = window?.length ?? Number.POSITIVE_INFINITY;
  const time = (eye: number): number => Math.min(record.time[eye] ?? 0, until);
  const followUp = model === "Cox" ? { time, until } : undefined;
  const resampling = resamplingGiven(given, model);
  const made = standardise({ data, groups, reference, hasFailed, followUp, resampling, given });
  if ("problems" in made) return made;
  const crude = made.standardised.groups.map((group) =>
    rateOfGroup(record, group, {
      ...(window === undefined ? {} : { window }),
      tolerance: toleranceGiven(record, given),
      method: "Wilson",
    }),
  );
  const parts: StandardisedParts = {
    record,
    window,
    tolerance: toleranceGiven(record, given),
    grouping,
    data,
    standardised: made.standardised,
    reference: groups[reference]?.label ?? "",
    hasFailed,
    model,
    crude,
    seed: resampling?.seed,
  };
  const isNamed = given.values.has("groups");
  return answer(parts, { chosen, unknown: asked.unknown, isNamed });
}

function outcomesOf(record: EyeRecord, window: TimeWindow | undefined, given: GivenArguments) {
  const at = {
    ...(window === undefined ? {} : { time: window.length }),
    tolerance: toleranceGiven(record, given),
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

function answer(parts: StandardisedParts, about: AboutEyes): Worked {
  const { record, data } = parts;
  const picks = new PickBook();
  const { unrecorded, others, small } = leftOutBy(parts, about, picks);
  return {
    answered: {
      answer: {
        question: "standardised_rate",
        asks: "How often would each have failed over the same eyes?",
        sentence: standardisedSentence(parts),
        brief: standardisedBrief(parts),
        table: standardisedTable(parts, picks),
        chart: { draw: "intervals", intervals: drawnStandardised(parts) },
        cautions: standardisedCautions(parts, {
          unrecorded,
          unknown: about.unknown.length,
          small,
        }),
        unit: "eyes",
        used: data.eyes.length,
        leftOut: [...unrecorded, ...others],
        figures: standardisedFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

interface AboutEyes {
  readonly chosen: ChosenGroups;
  readonly unknown: readonly number[];
  /** The reader named the groups, so those left out are left out on purpose. */
  readonly isNamed: boolean;
}

function leftOutBy(parts: StandardisedParts, about: AboutEyes, picks: PickBook) {
  const { record, data, window, model } = parts;
  const { chosen, unknown, isNamed } = about;
  const by = { label: chosen.grouping.label ?? "", picks, key: "other" };
  const silent = chosen.others.filter(({ label }) => label === notRecorded);
  const unwanted = chosen.others.filter(({ label }) => label !== notRecorded);
  const reason = `outcome${window === undefined ? "" : ` at ${window.text}`} not known`;
  const notKnown =
    unknown.length === 0 || model === "Cox"
      ? []
      : [openedReason(picks, { key: "unknown", reason, eyes: unknown })];
  return {
    unrecorded: [
      ...leftOutOf(record),
      ...setAside(silent, { ...by, key: "silent" }),
      ...data.silent.map((each, i) => openedReason(picks, { key: `term${i}`, ...each })),
    ],
    others: [...notKnown, ...setAside(unwanted, by)],
    small: isNamed ? [] : unwanted.map(({ label }) => label),
  };
}
