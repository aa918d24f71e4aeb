import type { GivenArguments } from "../../formula/vocabulary.ts";
import { eyeCount } from "../../outcomes/eye-record.ts";
import { nearestName } from "../../problem/nearest-name.ts";
import type { Problem } from "../../problem/problem.ts";
import { grayTest } from "../../statistics/gray-test.ts";
import type { IncidenceVariance } from "../../statistics/incidence-variance.ts";
import type { Answer } from "../answer.ts";
import { leftOutOf, PickBook, pickRecord } from "../answering/answered-eyes.ts";
import {
  causesShareEyes,
  clusteredIntervals,
  comparingPeople,
  manyLeftOut,
  pairedEyes,
  causeNotRecorded as silentCauses,
  smallNumbers,
  techniquesChosen,
  undecidedCensored,
  whatWasAssumed,
} from "../answering/cautions.ts";
import { type Grouping, groupEyes, notRecorded } from "../answering/grouping.ts";
import { landmarksGiven, landmarksParameter } from "../answering/landmarks.ts";
import { timesNeeded } from "../answering/timed.ts";
import { windowOf } from "../answering/window.ts";
import { listed } from "../answering/wording.ts";
import { notDrawn } from "../attachment-curve/drawn-groups.ts";
import {
  byParameter,
  eyesGiven,
  eyesParameter,
  question,
  textGiven,
  valueGiven,
  type Worked,
  withinParameter,
} from "../question.ts";
import {
  type Apart,
  type CompetingCauses,
  causeReader,
  competingCauses,
  recordedCauses,
} from "./cause-of-eye.ts";
import {
  endedBy,
  type IncidenceParts,
  incidenceBrief,
  incidenceFigures,
  incidenceSentence,
  silentCount,
} from "./failure-incidence-parts.ts";
import { incidenceDrawing, incidenceTable } from "./failure-incidence-table.ts";
import { type GroupIncidence, incidenceOfGroup } from "./incidence-of-group.ts";

const variances: readonly IncidenceVariance[] = ["delta", "Gray"];

/**
 * Which failures came, and when? Aalen–Johansen cumulative incidences: of each recorded cause, or,
 * split into groups, of failure from any cause (of one cause where `of` names it), with death and
 * the other causes competing. Limits on the log-log scale, variance by the delta method or Gray's,
 * or, where patients give two eyes, by the infinitesimal jackknife clustered by patient;
 * Gray's test between groups (Annals of Statistics 1988). At every time the incidences and the
 * share of eyes with no event add up to 1.
 */
export const failureIncidence = question(
  {
    name: "failure_incidence",
    meaning: "cumulative incidence of failure by cause, death and other causes competing",
    asks: "Which failures came, and when?",
    example: "failure_incidence(eyes, by: technique)",
    parameters: [
      eyesParameter,
      byParameter,
      {
        ...byParameter,
        name: "cause",
        meaning: "why an eye failed",
        whenLeftOut: "the recorded cause",
      },
      {
        name: "of",
        meaning: "one cause, set against all others",
        takes: "value",
        kinds: ["text"],
        required: false,
        whenLeftOut: "each cause; between groups, failure from any cause",
      },
      withinParameter,
      landmarksParameter("times at which the incidence is read"),
      {
        name: "variance",
        meaning: "the estimator of the variance",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: variances,
        whenLeftOut: '"delta"',
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const untimed = timesNeeded(record, given);
  if (untimed.length > 0) return { problems: untimed };
  const windowed = windowOf(record, given);
  const grouped = groupEyes(record, given.rows.get("by"));
  const reader = causeReader(record, given);
  const problems = [windowed, grouped, reader].flatMap((each) =>
    "problems" in each ? each.problems : [],
  );
  if ("problems" in windowed || "problems" in grouped || "problems" in reader) {
    return { problems };
  }
  const until = windowed.window?.length ?? Math.max(0, ...record.time);
  const { causesOf, by } = reader;
  const asked = apartGiven(given, recordedCauses(record, causesOf, until));
  if ("problems" in asked) return asked;
  const causes = competingCauses(record, { until, causesOf, apart: asked.apart });
  const variance = textGiven(given, "variance", variances[0] ?? "delta");
  const { grouping } = grouped;
  const split = grouping.label !== undefined;
  const everyone = { label: "all eyes", eyes: Array.from(record.time, (_, eye) => eye) };
  const parts: IncidenceParts = {
    record,
    grouping,
    causes,
    variance,
    until,
    landmarks: landmarksGiven(given, record, { until }),
    groups: grouping.groups.map((group) => incidenceOfGroup(group, causes, { record, variance })),
    total: incidenceOfGroup(everyone, causes, { record, variance }),
    tests: split ? causes.labels.map((_, k) => testOf(grouping, causes, k + 1)) : undefined,
  };
  const several = parts.total.endedAt.flat(2).filter((eye) => causesOf(eye).length > 1).length;
  return answer(parts, {
    by: [...grouping.by, ...by],
    several: asked.apart.kind === "each" ? several : 0,
  });
}

/** One cause where `of` names it; all failures as one between groups; else each by itself. */
function apartGiven(
  given: GivenArguments,
  recorded: readonly string[],
): { readonly apart: Apart } | { readonly problems: readonly Problem[] } {
  const of = valueGiven(given, "of");
  if (of?.kind !== "text") {
    const between = given.rows.has("by") && !given.rows.has("cause");
    return { apart: { kind: between ? "all" : "each" } };
  }
  if (recorded.includes(of.text)) return { apart: { kind: "one", cause: of.text } };
  const nearest = nearestName(of.text, recorded);
  return {
    problems: [
      {
        code: "no-such-cause",
        severity: "stop",
        place: { span: given.values.get("of")?.span ?? given.span },
        message: `no failure here has the cause "${of.text}"`,
        found: of.text,
        expected: recorded.length === 0 ? "a recorded cause; there is none" : listed(recorded),
        ...(nearest === undefined ? {} : { remedy: `write "${nearest}"` }),
      },
    ],
  };
}

/** Eyes on whose group the record is silent are in no group of the test. */
function testOf({ groups }: Grouping, causes: CompetingCauses, of: number) {
  const recorded = groups.filter(({ label }) => label !== notRecorded);
  const eyes = recorded.flatMap((group) => group.eyes);
  return grayTest({
    time: eyes.map((eye) => causes.time[eye] ?? 0),
    cause: eyes.map((eye) => causes.codes[eye] ?? 0),
    group: recorded.flatMap((group, position) => group.eyes.map(() => position)),
    groups: recorded.map((_, position) => position),
    of,
  });
}

function answer(
  parts: IncidenceParts,
  about: { readonly by: readonly string[]; readonly several: number },
): Worked {
  const { record } = parts;
  const picks = new PickBook();
  const leftOut = leftOutOf(record);
  const table = incidenceTable(parts, picks);
  parts.causes.labels.forEach((label, cause) => {
    picks.add(`all:${cause}`, `all eyes, ${label}`, endedBy(parts.total, cause));
  });
  return {
    answered: {
      answer: {
        question: "failure_incidence",
        asks: "Which failures came, and when?",
        sentence: incidenceSentence(parts),
        brief: incidenceBrief(parts),
        table,
        chart: { draw: "incidence", incidence: incidenceDrawing(parts, picks) },
        cautions: cautionsOf(parts, about, leftOut),
        unit: "eyes",
        used: eyeCount(record),
        leftOut,
        figures: incidenceFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function cautionsOf(
  parts: IncidenceParts,
  about: { readonly by: readonly string[]; readonly several: number },
  leftOut: Answer["leftOut"],
): Answer["cautions"] {
  const { record, groups, total } = parts;
  const split = parts.grouping.label !== undefined;
  return [
    ...smallNumbers((split ? groups : [total]).map((group) => sizeOf(group, parts))),
    ...(split ? notDrawn(groups) : []),
    ...silentCauses(silentCount(parts), sizeOf(total, parts).failed),
    ...causesShareEyes(about.several),
    ...techniquesChosen(about.by),
    ...comparingPeople(about.by),
    ...undecidedCensored(record),
    ...whatWasAssumed(record, about.by),
    ...manyLeftOut(leftOut, eyeCount(record)),
    ...pairedEyes(record, treatmentOfPairs(parts)),
  ];
}

function treatmentOfPairs({ variance, tests }: IncidenceParts): string {
  const test = tests === undefined ? "" : "the test treats eyes as independent";
  if (variance !== "Gray")
    return [clusteredIntervals, test].filter((each) => each !== "").join("; ");
  return `the intervals ${test === "" ? "" : "and the test "}treat eyes as independent`;
}

function sizeOf(group: GroupIncidence, { causes }: IncidenceParts) {
  const failed = group.endedAt.slice(0, causes.failures).flat(2).length;
  return { label: group.label, failed, eyes: group.eyes.length };
}
