import { eyeCount } from "../../outcomes/eye-record.ts";
import type { Sentence } from "../answer.ts";
import { rateWords } from "../answering/rate-words.ts";
import { count, counted, listed } from "../answering/wording.ts";
import type { GroupRate } from "../failure-rate/rate-of-group.ts";
import type { StratumRates, SuitabilityParts } from "./suitability-parts.ts";

/** How the eyes divide by their features, and how buckles fared within. It recommends nothing. */
export function suitabilitySentence(parts: SuitabilityParts): Sentence {
  const { record, strata, buckles, otherOnlyFor, window } = parts;
  const eyes = eyeCount(record);
  if (eyes === 0) return ["No eyes to look at."];
  const within = window === undefined ? "" : ` within ${window.text}`;
  return [
    `By recorded features for and against a buckle, of ${counted(eyes, "eye")} ` +
      `${listed(strata.map(stratumClause))}.`,
    ...(buckles === null
      ? [" None had a scleral buckle alone."]
      : [
          ...rateClause(buckles.onlyFor, {
            who: "buckled with only features for",
            pick: "buckle:for",
            within,
          }),
          ...rateClause(buckles.against, {
            who: "buckled with a feature against",
            pick: "buckle:against",
            within,
          }),
        ]),
    ...(sizeOf(otherOnlyFor) === 0
      ? []
      : rateClause(otherOnlyFor, {
          who: "with only features for that had another operation",
          pick: "other:for",
          within,
        })),
  ];
}

function stratumClause({ stratum, all }: StratumRates): string {
  const eyes = sizeOf(all);
  const has = eyes === 1 ? "has" : "have";
  if (stratum === null) return `for ${count(eyes)} the record cannot tell`;
  return `${count(eyes)} ${has} ${stratum}`;
}

function rateClause(
  rate: GroupRate,
  { who, pick, within }: { readonly who: string; readonly pick: string; readonly within: string },
): Sentence {
  if (sizeOf(rate) === 0) return [` No eye was ${who}.`];
  const failed =
    rate.failed === 0
      ? "none failed"
      : { text: `${count(rate.failed)} failed`, role: "failed" as const, pick };
  return [` Of ${counted(sizeOf(rate), "eye")} ${who}, `, failed, `${within}: ${rateWords(rate)}.`];
}

function sizeOf(rate: GroupRate): number {
  return rate.eyes + rate.notKnown;
}
