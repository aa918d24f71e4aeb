import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Caution, LeftOut } from "../answer.ts";
import { count, counted, figure, listed, percent, pValue } from "./wording.ts";

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
      text: `The outcome of ${count(notKnown)} of ${count(of)} eyes (${percent(notKnown / of)}) is not known. A failure is known at once, a success only at the window's end, so the share among those known runs high; the curve holds only if the eyes lost fare like those still seen.`,
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
  return [...outcomesInDoubt(record), ...statePresumed(record), ...riskNotRecorded(record, by)];
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

/** Several comparisons in one answer. */
export function severalComparisons(comparisons: number): Caution[] {
  if (comparisons < 2) return [];
  return [
    {
      code: "several-comparisons",
      text: `${count(comparisons)} comparisons are made here: where nothing differs, about one in twenty would still leave no difference outside its interval.`,
    },
  ];
}

/** Strata with eyes of one group only, and strata that do not agree. */
export function strataDisagree(strata: {
  readonly oneSided: readonly string[];
  readonly number: number;
  /** p of the test that the odds ratio is the same in all. */
  readonly homogeneity: number | null;
}): Caution[] {
  const { oneSided, number, homogeneity } = strata;
  const cautions: Caution[] = [];
  if (oneSided.length > 0) {
    cautions.push({
      code: "strata-without-overlap",
      text: `In ${count(oneSided.length)} of ${counted(number, "stratum", "strata")} (${listed(oneSided)}) only one of the two groups has eyes: ${oneSided.length === 1 ? "it says" : "they say"} nothing about the difference.`,
    });
  }
  if (homogeneity !== null && homogeneity < 0.05) {
    cautions.push({
      code: "strata-differ",
      text: "The odds ratio is not the same in all strata (see the test beside it): one common figure hides that; read the strata.",
    });
  }
  return cautions;
}

/** Several ways of counting side by side invite choosing the one that reads best. */
export function severalDefinitions(): Caution[] {
  return [
    {
      code: "several-definitions",
      text: "Agree on one way of counting before looking at the rates, and quote that one with its definition.",
    },
  ];
}

/** Ends of a course that are not decided, over a tenth. */
export function endsNotDecided(open: number, of: number): Caution[] {
  if (of === 0 || open <= of / 10) return [];
  return [
    {
      code: "ends-not-decided",
      text: `How ${count(open)} of ${count(of)} eyes ended is not decided or not known: the shares are of the others.`,
    },
  ];
}

/** Follow-up cut at the window of the eyes: nobody is seen to be followed for longer. */
export function followUpCut(record: EyeRecord): Caution[] {
  if (record.window === undefined) return [];
  return [
    {
      code: "follow-up-cut",
      text: `The eyes are followed for ${record.window.text} at most: give them no window to see how much longer they were seen.`,
    },
  ];
}

/** Eyes whose clock starts on the day oil came out. */
export function clockFromOilRemoval(eyes: number): Caution[] {
  if (eyes === 0) return [];
  return [
    {
      code: "clock-from-oil-removal",
      text: `${counted(eyes, "eye is", "eyes are")} followed from the day oil came out, but what was possible is counted from the repair: completeness is somewhat understated.`,
    },
  ];
}

/** Lost to follow-up, over a tenth of those due. */
export function manyLost(lost: number, due: number, before: string): Caution[] {
  if (due === 0 || lost <= due / 10) return [];
  return [
    {
      code: "many-lost",
      text: `${percent(lost / due)} of the eyes due were lost before ${before}. If eyes that did well stop coming, or eyes that did badly go elsewhere, no rate at ${before} can be trusted without its bounds.`,
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

/** Low vision whose number depends on the table. */
export function lowVisionByTable(acuities: number, table: string): Caution[] {
  if (acuities === 0) return [];
  return [
    {
      code: "low-vision-by-table",
      text: `${counted(acuities, "acuity is", "acuities are")} low vision with no measured logMAR: the table of ${table} gives the numbers, and another published table differs by up to 0.7 (35 letters) for hand movements. Compare means only under the same table; the median is moved less.`,
    },
  ];
}

/** Under twenty pairs in any of the groups compared. */
export function fewPairs(
  groups: readonly { readonly label: string; readonly pairs: number }[],
): Caution[] {
  const few = groups.filter(({ pairs }) => pairs < 20).map(({ label }) => label);
  if (few.length === 0) return [];
  const names = few.length > 4 ? `${few.slice(0, 4).join(", ")} and others` : listed(few);
  const which = groups.length === 1 ? "" : ` in ${names}`;
  return [
    {
      code: "small-numbers",
      text: `Small numbers${which}: fewer than 20 eyes with both acuities; the quartiles rest on few.`,
    },
  ];
}

/** Hazards that are not proportional: one ratio for all times hides that they change. */
export function hazardsNotProportional(p: number | null, what: string): Caution[] {
  if (p === null || p >= 0.05) return [];
  return [
    {
      code: "hazards-not-proportional",
      text: `${what} changes with time (Grambsch–Therneau test, ${pValue(p)}): one ratio for all times is an average that may hold at none; look at the curves.`,
    },
  ];
}

/** Rows that share eyes. */
export function countedInEach(several: number): Caution[] {
  if (several === 0) return [];
  return [
    {
      code: "counted-in-each",
      text: `${counted(several, "eye has", "eyes have")} breaks in several places and ${several === 1 ? "counts" : "count"} in each: the rows share eyes and do not add up.`,
    },
  ];
}

/** Features of an eye counted by common practice. */
export function notARecommendation(): Caution[] {
  return [
    {
      code: "not-a-recommendation",
      text: "The features are common practice without a published source, counted and not weighted: they describe how eyes were chosen and never say which operation an eye should have.",
    },
  ];
}

/** A model with fewer than ten failures a column. */
export function fewFailuresPerColumn(failures: number, columns: number): Caution[] {
  if (failures >= 10 * columns) return [];
  const each = failures / columns;
  return [
    {
      code: "few-failures-per-column",
      text: `The model has ${figure(each)} failures for each of ${counted(columns, "column")} (10 are better): its ratios are unsteady and would look better here than on other eyes.`,
    },
  ];
}

/** A model says what goes together, not what would change. */
export function modelIsNotCause(): Caution[] {
  return [
    {
      code: "not-a-cause",
      text: "A model of what was recorded shows what goes together; it does not show what would happen if an eye were operated on in another way.",
    },
  ];
}

/** A model judged on the eyes that it was fitted to. */
export function judgedOnOwnEyes(): Caution[] {
  return [
    {
      code: "judged-on-own-eyes",
      text: "How well the model tells eyes apart is judged on the eyes it was fitted to: on others it will do worse. It is not for telling a patient their risk.",
    },
  ];
}

/** Predicted and observed failures that do not agree over groups of risk. */
export function poorlyCalibrated(p: number | null): Caution[] {
  if (p === null || p >= 0.05) return [];
  return [
    {
      code: "poorly-calibrated",
      text: `Predicted and observed failures do not agree over groups of predicted risk (Hosmer–Lemeshow test, ${pValue(p)}): look at the calibration.`,
    },
  ];
}

/** Several groups, each set against the same standard. */
export function severalVerdicts(groups: number): Caution[] {
  if (groups < 2) return [];
  return [
    {
      code: "several-verdicts",
      text: `${count(groups)} groups are each set against the standard: the more there are, the likelier that one misses it by chance.`,
    },
  ];
}

/** An audit cycle that does not close. */
export function cycleOpen(
  isMet: boolean,
  next: {
    readonly action?: string | undefined;
    readonly role?: string | undefined;
    readonly reAudit?: number | undefined;
  },
): Caution[] {
  const lacking = [
    ...(isMet || next.action !== undefined ? [] : ["an action"]),
    ...(isMet || next.role !== undefined ? [] : ["who sees to it"]),
    ...(next.reAudit !== undefined ? [] : ["a day of re-audit"]),
  ];
  if (lacking.length === 0) return [];
  return [
    {
      code: "cycle-open",
      text: `The audit cycle is not closed: ${listed(lacking)} ${lacking.length === 1 ? "is" : "are"} not given.`,
    },
  ];
}

/** What standardising allows for, and what it does not. */
export function standardisedOnRecord(terms: string): Caution[] {
  return [
    {
      code: "standardised-on-record",
      text: `The rates allow for ${terms} as recorded and for nothing else: whatever else the choice was made by is still in them.`,
    },
  ];
}

/** Levels of a term that one of the groups has no eyes of. */
export function groupsWithoutOverlap(lacking: readonly string[]): Caution[] {
  if (lacking.length === 0) return [];
  const some = lacking.slice(0, 4);
  return [
    {
      code: "groups-without-overlap",
      text: `There is no eye of ${listed(some)}${lacking.length > some.length ? ", and of others" : ""}: there the rates rest on the model alone.`,
    },
  ];
}
