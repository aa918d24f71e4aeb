import { type Duration, duration } from "../../formula/value.ts";
import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { valueGiven } from "../question.ts";
import { durationText, timeIn, usualLandmarks } from "./time-words.ts";

/** A time at which a curve is read, in the record's unit, as the reader wrote it. */
export interface Landmark {
  readonly time: number;
  readonly text: string;
}

export function landmarksParameter(meaning: string, otherwise = usualLandmarks): Parameter {
  const texts = otherwise.map((each) => durationText(duration(...each)));
  return {
    name: "landmarks",
    meaning,
    takes: "value",
    kinds: ["list"],
    required: false,
    whenLeftOut: `[${texts.join(", ")}]`,
  };
}

/** The landmarks given, else the usual ones, up to `until`. */
export function landmarksGiven(
  given: GivenArguments,
  record: EyeRecord,
  options: { readonly until: number; readonly otherwise?: typeof usualLandmarks },
): readonly Landmark[] {
  const value = valueGiven(given, "landmarks");
  const items =
    value?.kind === "list"
      ? value.items
      : (options.otherwise ?? usualLandmarks).map((each) => duration(...each));
  return items
    .filter((item): item is Duration => item.kind === "duration")
    .map((item) => ({ time: timeIn(record.timeUnit, item), text: durationText(item) }))
    .filter(({ time }) => time <= options.until);
}
