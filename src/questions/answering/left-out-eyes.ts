import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { LeftOut } from "../answer.ts";
import { leftOutOf, type PickBook } from "./answered-eyes.ts";

/** Eyes that the record could not follow, and those that the question itself had to leave out. */
export function leftOutEyes(
  record: EyeRecord,
  without: readonly { readonly reason: string; readonly eyes: readonly number[] }[],
  picks: PickBook,
): LeftOut[] {
  const own = without.map(({ reason, eyes }, position) => {
    const pick = picks.add(`without:${position}`, reason, eyes);
    return { reason, count: eyes.length, ...(pick === undefined ? {} : { pick }) };
  });
  return [...leftOutOf(record), ...own];
}
