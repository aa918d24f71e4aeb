import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Sentence } from "../answer.ts";
import { counted } from "./wording.ts";

/** How the definition of failure reads in a sentence. */
interface FailureWords {
  /** After a count of one: "redetached". */
  readonly one: string;
  readonly many: string;
  /** Where there was no failure. */
  readonly none: string;
  /** Where no failure is known of and the outcome of some is not known. */
  readonly noneKnown: string;
  /** The eyes that did not fail: "still attached". */
  readonly spared: string;
  /** The definition as a heading: "redetachment". */
  readonly noun: string;
}

const words: Readonly<Record<string, FailureWords>> = {
  redetachment: {
    one: "redetached or never lay flat",
    many: "redetached or never lay flat",
    none: "all lay flat and none redetached",
    noneKnown: "none is known to have redetached or never to have lain flat",
    spared: "still attached",
    noun: "redetachment",
  },
  reoperation: {
    one: "needed a further operation or never lay flat",
    many: "needed a further operation or never lay flat",
    none: "all lay flat and none needed a further operation",
    noneKnown: "none is known to have needed a further operation or never to have lain flat",
    spared: "without a further operation",
    noun: "reoperation",
  },
  "not attached without oil": {
    one: "was detached, or attached only under oil, at its last visit",
    many: "were detached, or attached only under oil, at their last visit",
    none: "none was detached, or attached only under oil, at its last visit",
    noneKnown: "none is known to have been detached, or attached only under oil, at its last visit",
    spared: "attached without oil",
    noun: "not attached without oil",
  },
  "detached at last visit": {
    one: "was detached at its last visit",
    many: "were detached at their last visit",
    none: "none was detached at its last visit",
    noneKnown: "none is known to have been detached at its last visit",
    spared: "not detached",
    noun: "detached at last visit",
  },
};

const plain: FailureWords = {
  one: "failed",
  many: "failed",
  none: "none failed",
  noneKnown: "none is known to have failed",
  spared: "free of failure",
  noun: "failure",
};

export function failureWords(record: EyeRecord): FailureWords {
  return words[record.rules?.failure ?? ""] ?? plain;
}

/**
 * "60 redetached or never lay flat", "all lay flat and none redetached"; of eyes whose outcome is not
 * known in `notKnown` never that they did well.
 */
export function failedPhrase(record: EyeRecord, failed: number, notKnown = 0): string {
  const { one, many, none, noneKnown } = failureWords(record);
  if (failed === 0) return notKnown === 0 ? none : noneKnown;
  return `${failed} ${failed === 1 ? one : many}`;
}

/** How eyes with oil were followed, where there are any and it bears on the definition. */
export function rulesClause(record: EyeRecord): Sentence {
  const { rules, oil } = record;
  if (rules === undefined || oil === undefined || oil.eyes.length === 0) return [];
  if (rules.failure === "not attached without oil") return [];
  const stillIn = oil.stillIn.length === 0 ? "" : ` (still in: ${oil.stillIn.length})`;
  return [` ${counted(oil.eyes.length, "eye")} had silicone oil${stillIn}: ${rules.oil}.`];
}
