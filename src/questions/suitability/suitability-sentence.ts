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
            one: "buckled eye",
            who: "with only features for it",
            pick: "buckle:for",
            within,
          }),
          ...rateClause(buckles.against, {
            one: "buckled eye",
            who: "with a feature against it",
            pick: "buckle:against",
            within,
          }),
        ]),
    ...(sizeOf(otherOnlyFor) === 0
      ? []
      : rateClause(otherOnlyFor, {
          one: "eye",
          who: "with only features for a buckle that had another operation",
          pick: "other:for",
          within,
        })),
  ];
}

/** "Of 517 eyes by features for a buckle: 283 have only features for, 86 have …": what is told. */
export function suitabilityBrief({ record, strata }: SuitabilityParts): Sentence {
  const eyes = eyeCount(record);
  if (eyes === 0) return [];
  const told = strata.filter(({ stratum }) => stratum !== null).slice(0, 3);
  return [
    `For and against a buckle, ${counted(eyes, "eye")}: ${told.map(stratumClause).join("; ")}.`,
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
  told: {
    readonly one: string;
    readonly who: string;
    readonly pick: string;
    readonly within: string;
  },
): Sentence {
  const { one, who, pick, within } = told;
  if (sizeOf(rate) === 0) return [` There is no ${one} ${who}.`];
  const failed =
    rate.failed === 0
      ? "none failed"
      : { text: `${count(rate.failed)} failed`, role: "failed" as const, pick };
  const opening = ` Of ${counted(sizeOf(rate), one)} ${who}, `;
  return [opening, failed, `${within}: ${rateWords(rate)}.`];
}

function sizeOf(rate: GroupRate): number {
  return rate.eyes + rate.notKnown;
}
