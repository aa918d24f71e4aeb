import { type EyeRecord, isTimed } from "../../outcomes/eye-record.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Caution, LeftOut } from "../answer.ts";
import { failuresDatedByVisit } from "./failures-dated-by-visit.ts";
import { patientsOfSeveralEyes } from "./patient-clusters.ts";
import { lengthText } from "./time-words.ts";
import { count, counted, groupName, listed, percent } from "./wording.ts";

/** The cautions that answers carry. Each is a function of the numbers it warns about. */

/** Under 5 failures or 20 eyes in any of the groups compared. */
export function smallNumbers(
  groups: readonly { readonly label: string; readonly failed: number; readonly eyes: number }[],
): Caution[] {
  const small = groups.filter((group) => group.failed < 5 || group.eyes < 20);
  if (small.length === 0) return [];
  const names = small.map(({ label }) => groupName(label));
  const told = names.length > 4 ? `${names.slice(0, 4).join(", ")} and others` : listed(names);
  const which = groups.length === 1 ? "" : ` in ${told}`;
  return [
    {
      code: "small-numbers",
      text: `Small numbers${which}: fewer than 5 failures or 20 eyes; read the interval, not the rate.`,
    },
  ];
}

/** Techniques are chosen for reasons. */
export function techniquesChosen(by: readonly string[]): Caution[] {
  if (!by.some((name) => /technique|tamponade|buckle_element|retinopexy/.test(name))) return [];
  return [
    {
      code: "techniques-chosen",
      text: "Techniques were chosen for reasons: these rows do not compare them.",
    },
  ];
}

/** Whether a split is by people, or by what a person is. */
export function isComparingPeople(by: readonly string[]): boolean {
  return by.some((name) => /surgeon|supervis|trainee/.test(name));
}

/** A comparison of people. */
export function comparingPeople(by: readonly string[]): Caution[] {
  if (!isComparingPeople(by)) return [];
  return [
    {
      code: "comparing-people",
      text: "This sets people side by side: it is not a measure of competence by itself, and case mix and small numbers may explain it.",
    },
  ];
}

/** What the intervals of an answer make of two eyes of one patient. */
export const clusteredIntervals = "the intervals allow for it (clustered by patient)";

/** Two eyes of one person are not two people; `treatment` says what the intervals make of it. */
export function pairedEyes(
  record: EyeRecord,
  treatment = "intervals treat eyes as independent",
): Caution[] {
  const both = patientsOfSeveralEyes(record);
  if (both === 0) return [];
  return [
    {
      code: "paired-eyes",
      text: `${counted(both, "patient gives", "patients give")} more than one eye; ${treatment}.`,
    },
  ];
}

/** Eyes left out or not known, over a tenth. */
export function manyNotKnown(record: EyeRecord, notKnown: number, of: number): Caution[] {
  if (of === 0 || notKnown <= of / 10) return [];
  const bias = isTimed(record)
    ? "A failure is known at once, a success only at the window's end, so the share among those known runs high; the curve holds only if the eyes lost fare like those still seen."
    : "The share among those known holds only if the others fared alike.";
  return [
    {
      code: "many-not-known",
      text: `The outcome of ${count(notKnown)} of ${count(of)} eyes (${percent(notKnown / of)}) is not known. ${bias}`,
    },
  ];
}

/** Visits that come early and still count as reached the window: `tolerance` in the record's unit. */
export function earlyVisits(
  record: EyeRecord,
  { window, tolerance }: { readonly window?: TimeWindow | undefined; readonly tolerance: number },
): Caution[] {
  if (window === undefined || tolerance <= 0 || !isTimed(record)) return [];
  return [
    {
      code: "early-visits",
      text: `An eye last seen up to ${lengthText(record, tolerance)} before ${window.text} counts as known at ${window.text}.`,
    },
  ];
}

/** Rows or eyes left out of the answer that the question did not ask to leave out, over a tenth. */
export function manyLeftOut(leftOut: readonly LeftOut[], used: number): Caution[] {
  const unasked = leftOut.filter((each) => each.asked !== true);
  const out = unasked.reduce((sum, each) => sum + each.count, 0);
  if (out <= (out + used) / 10) return [];
  return [
    {
      code: "many-left-out",
      text: `${count(out)} of ${count(out + used)} ${out === 1 ? "was" : "were"} left out${reasonsOf(unasked)}.`,
    },
  ];
}

/** ": technique not recorded (12)"; of several reasons the most frequent. */
function reasonsOf(leftOut: readonly LeftOut[]): string {
  const [first] = [...leftOut].sort((one, other) => other.count - one.count);
  if (first === undefined) return "";
  return `${leftOut.length === 1 ? ": " : ", most often: "}${first.reason} (${count(first.count)})`;
}

/** Curves that rest on few eyes before the window's end. */
export function fewRemain(
  groups: readonly { readonly label: string; readonly fewFrom: number | null }[],
  until: number,
): Caution[] {
  const few = groups.filter((group) => group.fewFrom !== null && group.fewFrom < until);
  if (few.length === 0) return [];
  const which =
    groups.length === 1 ? "" : ` for ${listed(few.map((group) => groupName(group.label)))}`;
  return [
    {
      code: "few-at-risk",
      text: `The curve is dimmed${which} where fewer than 10 eyes (or a tenth of them) remain at risk: do not lean on that part.`,
    },
  ];
}

/** Eyes that are not decided are followed only as long as they are known not to have failed. */
export function undecidedCensored(record: EyeRecord): Caution[] {
  const undecided = record.undecided.reduce((sum, each) => sum + each, 0);
  if (undecided === 0) return [];
  return [
    {
      code: "undecided-censored",
      text: `${counted(undecided, "eye is", "eyes are")} undecided (fluid under observation, oil still in, or nothing certain recorded) and followed only as long as known not to have failed; the failure rate gives the bounds.`,
    },
  ];
}

/** What the record did not say and the answer had to take as so. */
export function whatWasAssumed(record: EyeRecord, by: readonly string[]): Caution[] {
  return [
    ...outcomesInDoubt(record),
    ...failuresDatedByVisit(record),
    ...statePresumed(record),
    ...riskNotRecorded(record, by),
  ];
}

function outcomesInDoubt({ doubts = [] }: EyeRecord): Caution[] {
  if (doubts.length === 0) return [];
  const reasons = [...new Set(doubts.flatMap((each) => each.doubts))];
  return [
    {
      code: "outcomes-in-doubt",
      text: `${counted(doubts.length, "eye is", "eyes are")} undecided because the record leaves the outcome in doubt: ${listed(reasons)}.`,
    },
  ];
}

function statePresumed(record: EyeRecord): Caution[] {
  if (record.statePresumed !== true) return [];
  return [
    {
      code: "state-presumed",
      text: "The file has no column for the state at the last visit: an eye seen with nothing said of a detachment is taken as attached.",
    },
  ];
}

function riskNotRecorded({ riskFactorsAbsent = [] }: EyeRecord, by: readonly string[]): Caution[] {
  if (riskFactorsAbsent.length === 0 || !by.some((name) => name.startsWith("risk_"))) return [];
  return [
    {
      code: "risk-not-recorded",
      text: `The file has no column for ${listed(riskFactorsAbsent)}: the strata rest on the other factors.`,
    },
  ];
}

/** Failures without a recorded cause. */
export function causeNotRecorded(silent: number, failed: number): Caution[] {
  if (silent === 0) return [];
  return [
    {
      code: "cause-not-recorded",
      text: `The cause is not recorded in ${count(silent)} of ${count(failed)}.`,
    },
  ];
}

/** Failures of several causes that count under each of them. */
export function causesOverlap(several: number): Caution[] {
  if (several === 0) return [];
  return [
    {
      code: "causes-overlap",
      text: `${counted(several, "failed eye has", "failed eyes have")} more than one recorded cause and ${several === 1 ? "counts" : "count"} under each: the shares add to more than 100%.`,
    },
  ];
}

/** Failures of several causes at once, and causes gathered. */
export function causesShareEyes(several: number): Caution[] {
  if (several === 0) return [];
  return [
    {
      code: "several-causes",
      text: `${counted(several, "failed eye has", "failed eyes have")} more than one recorded cause and count once, under all of them together.`,
    },
  ];
}
