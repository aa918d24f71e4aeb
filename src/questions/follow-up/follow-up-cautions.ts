import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Caution } from "../answer.ts";
import { lengthText } from "../answering/time-words.ts";
import { counted, percent } from "../answering/wording.ts";

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

/** Visits that come early and still count as reached: `tolerance` in the record's unit. */
export function seenEarly(record: EyeRecord, tolerance: number): Caution[] {
  if (tolerance <= 0) return [];
  return [
    {
      code: "early-visits",
      text: `An eye last seen up to ${lengthText(record, tolerance)} before a time is not counted as lost before it.`,
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
