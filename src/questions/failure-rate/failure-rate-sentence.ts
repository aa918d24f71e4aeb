import { eyeCount } from "../../outcomes/eye-record.ts";
import type { Sentence } from "../answer.ts";
import { failedPhrase } from "../answering/failure-words.ts";
import { capitalised, counted, percent, percentRange } from "../answering/wording.ts";
import type { RateParts } from "./failure-rate-parts.ts";
import { type GroupRate, headlineOf } from "./rate-of-group.ts";

/**
 * The rate for the minutes: the count among all eyes, the rate with its interval, what is known
 * and the bounds, and the spread over groups.
 */
export function rateSentence(parts: RateParts): Sentence {
  if (eyeCount(parts.record) === 0) return ["No eyes to count."];
  return [...countClause(parts), ...rateClause(parts), ...knownClause(parts), ...spread(parts)];
}

function countClause({ record, total, window }: RateParts): Sentence {
  const pick = total.failed === 0 ? {} : { pick: "all:failed" };
  return [
    `Of ${counted(eyeCount(record), "eye")}, `,
    { text: failedPhrase(record, total.failed), role: "failed", ...pick },
    window === undefined ? "" : ` within ${window.text}`,
  ];
}

function rateClause({ total }: RateParts): Sentence {
  if (total.curve !== null && total.notKnown > 0) {
    const { estimate } = total.curve;
    return [`: by the curve ${percent(estimate)} (95% interval ${percentRange(total.curve)}).`];
  }
  if (total.rate === null || total.interval === null) return ["."];
  const { method } = total.interval;
  return [`: ${percent(total.rate)} (95% ${method} interval ${percentRange(total.interval)}).`];
}

function knownClause({ total, window }: RateParts): Sentence {
  if (total.notKnown === 0) return [];
  const when = window === undefined ? "" : ` at ${window.text}`;
  const known = total.eyes === 0 ? "no eye" : counted(total.eyes, "eye");
  const others =
    total.notKnown === 1
      ? `; if the other had not failed the rate would be ${percent(total.lowest)}, if it had, `
      : `; if none of the other ${total.notKnown} had failed the rate would be ` +
        `${percent(total.lowest)}, if all had, `;
  return [` The outcome${when} is known for ${known}${others}${percent(total.highest)}.`];
}

function spread({ grouping, groups }: RateParts): Sentence {
  const ranked = groups
    .filter((group) => headlineOf(group) !== null && group.eyes + group.notKnown >= 10)
    .sort((a, b) => (headlineOf(a)?.estimate ?? 0) - (headlineOf(b)?.estimate ?? 0));
  const least = ranked[0];
  const most = ranked.at(-1);
  if (grouping.label === undefined || least === undefined || most === undefined) return [];
  if (least === most) return [];
  const named = (group: GroupRate): string =>
    `${percent(headlineOf(group)?.estimate ?? null)} (${group.label}, ${group.failed} of ` +
    `${group.eyes + group.notKnown})`;
  return [` ${capitalised(`by ${grouping.label}`)} it ran from ${named(least)} to ${named(most)}.`];
}
