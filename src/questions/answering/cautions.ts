import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Caution, LeftOut } from "../answer.ts";
import { count, counted, listed, percent } from "./wording.ts";

/** The cautions that answers carry. Each is a function of the numbers it warns about. */

/** Under 5 failures or 20 eyes in any of the groups compared. */
export function smallNumbers(
  groups: readonly { readonly label: string; readonly failed: number; readonly eyes: number }[],
): Caution[] {
  const small = groups.filter((group) => group.failed < 5 || group.eyes < 20);
  if (small.length === 0) return [];
  const names = small.map((group) => group.label);
  const which =
    groups.length === 1
      ? ""
      : ` in ${names.slice(0, 4).join(", ")}${names.length > 4 ? " and others" : ""}`;
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

/** A comparison of people. */
export function comparingPeople(by: readonly string[]): Caution[] {
  if (!by.some((name) => /surgeon|supervis|trainee/.test(name))) return [];
  return [
    {
      code: "comparing-people",
      text: "This sets people side by side: it is not a measure of competence by itself, and case mix and small numbers may explain it.",
    },
  ];
}

/** Two eyes of one person are not two people. */
export function pairedEyes(record: EyeRecord): Caution[] {
  const seen = new Map<string, number>();
  for (const patient of record.patient) {
    if (patient !== null) seen.set(patient, (seen.get(patient) ?? 0) + 1);
  }
  const both = [...seen.values()].filter((eyes) => eyes > 1).length;
  if (both === 0) return [];
  return [
    {
      code: "paired-eyes",
      text: `${counted(both, "patient gives", "patients give")} more than one eye; intervals treat eyes as independent.`,
    },
  ];
}

/** Eyes left out or not known, over a tenth. */
export function manyNotKnown(notKnown: number, of: number): Caution[] {
  if (of === 0 || notKnown <= of / 10) return [];
  return [
    {
      code: "many-not-known",
      text: `The outcome of ${count(notKnown)} of ${count(of)} eyes (${percent(notKnown / of)}) is not known. Eyes that did well stop coming, so the share among those known runs high; the curve corrects for it only if the eyes lost do no worse than those seen.`,
    },
  ];
}

/** Rows or eyes left out of the answer altogether, over a tenth. */
export function manyLeftOut(leftOut: readonly LeftOut[], used: number): Caution[] {
  const out = leftOut.reduce((sum, each) => sum + each.count, 0);
  if (out <= (out + used) / 10) return [];
  return [
    {
      code: "many-left-out",
      text: `${count(out)} of ${count(out + used)} were left out: see the reasons.`,
    },
  ];
}

/** Curves that rest on few eyes before the window's end. */
export function fewRemain(
  groups: readonly { readonly label: string; readonly fewFrom: number | null }[],
  until: number,
): Caution[] {
  const few = groups.filter((group) => group.fewFrom !== null && group.fewFrom < until);
  if (few.length === 0) return [];
  const which = groups.length === 1 ? "" : ` for ${listed(few.map((group) => group.label))}`;
  return [
    {
      code: "few-at-risk",
      text: `The curve is dimmed${which} where fewer than 10 eyes (or a tenth of them) remain at risk: do not lean on that part.`,
    },
  ];
}

/** Eyes that are not decided at their last visit are followed to that visit in a curve. */
export function undecidedCensored(record: EyeRecord): Caution[] {
  const undecided = record.undecided.reduce((sum, each) => sum + each, 0);
  if (undecided === 0) return [];
  return [
    {
      code: "undecided-censored",
      text: `${counted(undecided, "eye is", "eyes are")} undecided at the last visit and followed only to that visit; the failure rate gives the bounds.`,
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
