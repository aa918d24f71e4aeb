import type { EyeRecord } from "../../outcomes/eye-record.ts";

/** How the definition of failure reads in a sentence. */
interface FailureWords {
  /** After a count of one: "redetached". */
  readonly one: string;
  readonly many: string;
  /** The eyes that did not fail: "still attached". */
  readonly spared: string;
  /** The definition as a heading: "redetachment". */
  readonly noun: string;
}

const words: Readonly<Record<string, FailureWords>> = {
  redetachment: {
    one: "redetached or never lay flat",
    many: "redetached or never lay flat",
    spared: "still attached",
    noun: "redetachment",
  },
  reoperation: {
    one: "needed a further operation or never lay flat",
    many: "needed a further operation or never lay flat",
    spared: "without a further operation",
    noun: "reoperation",
  },
  "not attached without oil": {
    one: "was not attached without oil at its last visit",
    many: "were not attached without oil at their last visit",
    spared: "attached without oil",
    noun: "not attached without oil",
  },
  "detached at last visit": {
    one: "was detached at its last visit",
    many: "were detached at their last visit",
    spared: "not detached",
    noun: "detached at last visit",
  },
};

const plain: FailureWords = {
  one: "failed",
  many: "failed",
  spared: "free of failure",
  noun: "failure",
};

export function failureWords(record: EyeRecord): FailureWords {
  return words[record.rules?.failure ?? ""] ?? plain;
}

/** "60 redetached or never lay flat", "none redetached …". */
export function failedPhrase(record: EyeRecord, failed: number): string {
  const { one, many } = failureWords(record);
  if (failed === 0) return `none ${one}`;
  return `${failed} ${failed === 1 ? one : many}`;
}
