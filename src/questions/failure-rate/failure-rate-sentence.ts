import { eyeCount, isTimed } from "../../outcomes/eye-record.ts";
import type { Sentence } from "../answer.ts";
import { isComparingPeople } from "../answering/cautions.ts";
import { failedPhrase, rulesClause } from "../answering/failure-words.ts";
import { notRecorded } from "../answering/group-rows.ts";
import { rateWords } from "../answering/rate-words.ts";
import { capitalised, counted, groupName, percent, percentRange } from "../answering/wording.ts";
import type { RateParts } from "./failure-rate-parts.ts";
import { type GroupRate, headlineOf, isByCurve } from "./rate-of-group.ts";

/**
 * The rate for the minutes: the count among all eyes, the rate with its interval, what is known
 * and the bounds, the spread over groups (never over people), and the rules it rests on.
 */
export function rateSentence(parts: RateParts): Sentence {
  const { record } = parts;
  if (eyeCount(record) === 0) return ["No eyes to count."];
  const clauses = [...countClause(parts), ...rateClause(parts), ...knownClause(parts)];
  return [...clauses, ...spread(parts), ...rulesClause(record)];
}

function countClause({ record, total, window }: RateParts): Sentence {
  const eyes = `Of ${counted(eyeCount(record), "eye")}, `;
  const phrase = failedPhrase(record, total.failed, total.notKnown);
  const when = window === undefined ? "" : ` within ${window.text}`;
  if (total.failed === 0) return [`${eyes}${phrase}${when}`];
  return [eyes, { text: phrase, role: "failed", pick: "all:failed" }, when];
}

function rateClause({ total }: RateParts): Sentence {
  return headlineOf(total) === null ? ["."] : [`: ${rateWords(total)}.`];
}

function knownClause({ record, total, window }: RateParts): Sentence {
  if (total.notKnown === 0) return [];
  const when = isTimed(record) ? at(window?.text) : " at the last visit";
  const known = total.eyes === 0 ? "no eye" : counted(total.eyes, "eye");
  const [lowest, highest] = [percent(total.lowest), percent(total.highest)];
  const which = total.eyes === 0 ? "them" : `the other ${total.notKnown}`;
  const others =
    total.notKnown === 1
      ? `if ${total.eyes === 0 ? "it" : "the other"} had not failed the rate would be ${lowest}, if it had, ${highest}`
      : `if none of ${which} had failed the rate would be ${lowest}, if all had, ${highest}`;
  return [` The outcome${when} is known for ${known}; ${others}.`];
}

function at(window: string | undefined): string {
  return window === undefined ? "" : ` at ${window}`;
}

function spread({ grouping, groups }: RateParts): Sentence {
  if (grouping.label === undefined || isComparingPeople(grouping.by)) return [];
  const ranked = groups
    .filter((group) => headlineOf(group) !== null && sizeOf(group) >= leastEyes)
    .filter((group) => group.label !== notRecorded)
    .sort((a, b) => (headlineOf(a)?.estimate ?? 0) - (headlineOf(b)?.estimate ?? 0));
  const least = ranked[0];
  const most = ranked.at(-1);
  if (least === undefined || most === undefined || least === most) return [];
  const among = groups.some((group) => sizeOf(group) < leastEyes)
    ? `, among groups of ${leastEyes} eyes or more,`
    : "";
  const byCurve = [least, most].some(isByCurve);
  const how = byCurve ? `${among === "" ? "," : ""} by the curve` : "";
  return [
    ` ${capitalised(`by ${grouping.label}`)}${among}${how} from ${named(least)} to ${named(most)}.`,
  ];
}

/** Groups smaller than this are not named as the least or the most. */
const leastEyes = 10;

function named(group: GroupRate): string {
  const headline = headlineOf(group);
  if (headline === null) return group.label;
  const interval = `95% interval ${percentRange(headline)}`;
  return `${percent(headline.estimate)} (${groupName(group.label)}, ${group.failed === 0 ? "none" : group.failed} failed of ${sizeOf(group)}; ${interval})`;
}

function sizeOf(group: GroupRate): number {
  return group.eyes + group.notKnown;
}
