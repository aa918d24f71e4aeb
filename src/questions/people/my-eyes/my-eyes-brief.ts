import type { Sentence } from "../../answer.ts";
import { count, counted, percent, percentRange } from "../../answering/wording.ts";
import type { OwnParts } from "./my-eyes-parts.ts";

/** "18 of 87 eyes of E failed (20.7%, 95% interval 13.5 to 30.4%); 11.1 were expected; 11 are not known." */
export function ownBrief({ judged, person, result }: OwnParts): Sentence {
  const { failedEyes, interval, ratio, rate } = result;
  const known = judged.known.length;
  if (known === 0) return [];
  const failed = failedEyes.length === 0 ? "None" : count(failedEyes.length);
  const head = `${failed} of ${counted(known, "eye")} of ${person.code} failed`;
  const limits =
    interval === null ? "" : ` (${percent(rate)}, 95% interval ${percentRange(interval)})`;
  const expected = ratio === null ? "" : `; ${ratio.expected.toFixed(1)} were expected`;
  const unknown =
    judged.unknown.length === 0 ? "" : `; ${isOrAre(judged.unknown.length)} not known`;
  const part =
    failedEyes.length === 0 ? head : { text: head, role: "failed" as const, pick: "s0:failed" };
  return [part, `${limits}${expected}${unknown}.`];
}

function isOrAre(number: number): string {
  return `${count(number)} ${number === 1 ? "is" : "are"}`;
}
