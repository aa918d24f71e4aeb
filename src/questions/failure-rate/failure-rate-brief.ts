import { eyeCount } from "../../outcomes/eye-record.ts";
import type { Sentence } from "../answer.ts";
import { counted, percent, percentRange } from "../answering/wording.ts";
import type { RateParts } from "./failure-rate-parts.ts";
import { headlineOf } from "./rate-of-group.ts";

/** "69 of 517 eyes failed within 12 months; by the curve 15.0% (95% interval 12.0 to 18.7%)." */
export function rateBrief({ record, total, window }: RateParts): Sentence {
  const eyes = eyeCount(record);
  if (eyes === 0) return ["No eyes to count."];
  const when = window === undefined ? "" : ` within ${window.text}`;
  const failed = total.failed === 0 ? "None" : String(total.failed);
  const isOpen = total.failed === 0 && total.notKnown > 0;
  const count = `${failed} of ${counted(eyes, "eye")} ${isOpen ? "is known to have failed" : "failed"}`;
  const headline = headlineOf(total);
  const how = total.notKnown === 0 || total.curve === null ? "" : "by the curve ";
  const rate =
    headline === null
      ? ""
      : `; ${how}${percent(headline.estimate)} (95% interval ${percentRange(headline)})`;
  const part =
    total.failed === 0 ? count : { text: count, role: "failed" as const, pick: "all:failed" };
  return [part, `${when}${rate}.`];
}
