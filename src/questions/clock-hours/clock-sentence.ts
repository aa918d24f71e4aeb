import { eyeCount } from "../../outcomes/eye-record.ts";
import type { Sentence } from "../answer.ts";
import { rateWords } from "../answering/rate-words.ts";
import { count, counted, listed, percent } from "../answering/wording.ts";
import { headlineOf } from "../failure-rate/rate-of-group.ts";
import type { ClockParts, ClockRow } from "./clock-parts.ts";

/** Where the breaks lay, and how often eyes with an inferior break failed beside the others. */
export function clockSentence(parts: ClockParts): Sentence {
  const { record, breaks, withInferior, withoutInferior, inferior } = parts;
  const eyes = eyeCount(record);
  const placed = breaks.eyes.length;
  if (eyes === 0) return ["No eyes to look at."];
  if (placed === 0)
    return [`The place of a break is recorded for none of ${counted(eyes, "eye")}.`];
  const within = record.window === undefined ? "" : ` within ${record.window.text}`;
  return [
    `Of ${counted(eyes, "eye")}, ${count(placed)} ${placed === 1 ? "has" : "have"} the place of a ` +
      `break recorded: ${quadrantClause(parts)}. `,
    ...failureClause(withInferior, {
      who: `with an inferior break (${inferior.name} o'clock)`,
      pick: "inferior",
      within,
    }),
    ...failureClause(withoutInferior, { who: "without one", pick: "elsewhere", within }),
  ];
}

/** "Failed: with an inferior break 19 of 200 eyes (10.3%), without one 46 of 256 eyes (19.5%)." */
export function clockBrief({ breaks, withInferior, withoutInferior }: ClockParts): Sentence {
  if (breaks.eyes.length === 0) return [];
  const part = ({ eyes, rate }: ClockRow): string => {
    const headline = headlineOf(rate);
    const share = headline === null ? "" : ` (${percent(headline.estimate)})`;
    if (eyes.length === 0) return "no eye";
    return `${rate.failed === 0 ? "none" : count(rate.failed)} of ${counted(eyes.length, "eye")}${share}`;
  };
  return [
    `Failed: with an inferior break ${part(withInferior)}, without one ${part(withoutInferior)}.`,
  ];
}

function quadrantClause({ byQuadrant, breaks }: ClockParts): string {
  const told = byQuadrant.map(
    ({ quadrant, eyes }) =>
      `${quadrant} in ${count(eyes.length)} (${percent(eyes.length / breaks.eyes.length)})`,
  );
  const several = breaks.eyes.some(({ hours }) => hours.length > 1);
  return `${listed(told)}${several ? "; an eye with several breaks counts in each place" : ""}`;
}

function failureClause(
  { eyes, rate }: ClockRow,
  { who, pick, within }: { readonly who: string; readonly pick: string; readonly within: string },
): Sentence {
  const opening = pick === "inferior" ? "Of " : " Of ";
  if (eyes.length === 0) return [`${pick === "inferior" ? "" : " "}No eye is ${who}.`];
  const failed =
    rate.failed === 0
      ? "none failed"
      : { text: `${count(rate.failed)} failed`, role: "failed" as const, pick: `${pick}:failed` };
  return [
    `${opening}${counted(eyes.length, "eye")} ${who}, `,
    failed,
    `${within}: ${rateWords(rate)}.`,
  ];
}
