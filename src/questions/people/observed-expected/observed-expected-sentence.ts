import { ratioText } from "../../../charts/effect-intervals.ts";
import type { Sentence } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { ratioRange } from "../../answering/effect-cells.ts";
import { failedPhrase, rulesClause } from "../../answering/failure-words.ts";
import { count, counted, percent, percentRange, pValue } from "../../answering/wording.ts";
import { doubling, enoughWords } from "../enough-line.ts";
import { expectationWords } from "../expectation.ts";
import { knownWords, ownRecord } from "../judged-eyes.ts";
import type { ComparisonParts } from "./observed-expected-parts.ts";
import type { PersonResult } from "./person-result.ts";

/**
 * What the eyes say of the people together, and of one of them only where that one was asked for:
 * nobody is named for where they stand among others.
 */
export function comparisonSentence(parts: ComparisonParts, picks: PickBook): Sentence {
  const { judged, mine, people } = parts;
  if (judged.known.length === 0) return ["No eyes whose outcome is known to compare."];
  const own = mine === undefined ? undefined : people[0];
  return [
    ...(own === undefined ? allClause(parts, picks) : ownClause(own, parts)),
    ` ${unknownWords(own === undefined ? judged : own.judged)}`,
    enoughWords(doubling(parts.standard)),
    ...rulesClause(ownRecord(own === undefined ? judged : own.judged)),
  ];
}

function allClause(parts: ComparisonParts, picks: PickBook): Sentence {
  const { judged, people, expectation, label } = parts;
  const failed = judged.known.filter(judged.hasFailed);
  const pick = parts.areNamesHidden ? undefined : picks.add("all:failed", "all, failed", failed);
  const above = people.filter(({ ratio }) => ratio !== null && ratio.lower > 1).length;
  const below = people.filter(({ ratio }) => ratio !== null && ratio.upper < 1).length;
  const phrase = failedPhrase(judged.record, failed.length);
  return [
    `Of ${counted(judged.known.length, "eye")} ${knownWords(judged)}, `,
    pick === undefined ? phrase : { text: phrase, role: "failed", pick },
    `. Expected failures are ${expectationWords(expectation)}. By ${label}, ${numberOf(above, people.length)} more failures than expected by an interval wholly above 1, ${numberOf(below, people.length)} fewer by one wholly below.`,
  ];
}

/** The finding alone: of one person only where that one was asked for. */
export function comparisonBrief({ judged, mine, people, label }: ComparisonParts): Sentence {
  if (judged.known.length === 0) return [];
  const own = mine === undefined ? undefined : people[0];
  if (own === undefined) {
    const above = people.filter(({ ratio }) => ratio !== null && ratio.lower > 1).length;
    const below = people.filter(({ ratio }) => ratio !== null && ratio.upper < 1).length;
    return [
      `By ${label}, ${numberOf(above, people.length)} more failures than expected, ${numberOf(below, people.length)} fewer (${counted(judged.known.length, "eye")}).`,
    ];
  }
  if (own.ratio === null) return [];
  const { ratio, observed } = own;
  const failed = observed === 0 ? "none" : count(observed);
  return [
    `${own.label}: ${failed} failed where ${ratio.expected.toFixed(1)} were expected; observed over expected ${ratioText(ratio.estimate)} (95% interval ${ratioRange(ratio)}).`,
  ];
}

function numberOf(some: number, of: number): string {
  return `${some === 0 ? "none" : count(some)} of ${count(of)} ${some <= 1 ? "has" : "have"}`;
}

function ownClause(own: PersonResult, parts: ComparisonParts): Sentence {
  const { label, judged, failedEyes, ratio, observed, risks } = own;
  const failed = failedPhrase(judged.record, failedEyes.length);
  const head: Sentence = [
    `${label}: of ${counted(judged.known.length, "eye")} ${knownWords(judged)}, `,
    failedEyes.length === 0 ? failed : { text: failed, role: "failed", pick: "p0:failed" },
  ];
  if (ratio === null || risks === undefined) {
    return [...head, `. Nothing can be expected: ${own.cannot ?? "no eye has a risk"}.`];
  }
  const among =
    risks.eyes.length === judged.known.length
      ? ""
      : ` among the ${count(risks.eyes.length)} that have a risk, ${count(observed)} failed and`;
  return [
    ...head,
    `;${among} ${ratio.expected.toFixed(1)} were expected ${expectationWords(parts.expectation)}: ` +
      `observed over expected ${ratioText(ratio.estimate)} (95% ${ratio.method} interval ${ratioRange(ratio)}; ` +
      `exact test, ${pValue(ratio.p)}). ${mixWords(own, parts)}${shrunkenWords(own, parts)}`,
  ];
}

function mixWords({ meanRisk, adjusted }: PersonResult, { standard }: ComparisonParts): string {
  if (meanRisk === null || adjusted === null) return "";
  return `The mean expected risk of these eyes is ${percent(meanRisk)}; on the unit's ${percent(standard)} the adjusted rate is ${percent(adjusted.estimate)} (${percentRange(adjusted)}).`;
}

function shrunkenWords(own: PersonResult, { all }: ComparisonParts): string {
  const { shrunken, worstQuarter } = own;
  if (shrunken === null || shrunken.limits === null) return "";
  const quarter =
    worstQuarter === null
      ? ""
      : `; the probability of a true rate among the worst quarter of ${count(all)} is ${percent(worstQuarter)}`;
  return ` Drawn towards the mean as far as the numbers are few, the rate is ${percent(shrunken.shrunken)} (${percentRange(shrunken.limits)})${quarter}.`;
}

/** "12 eyes are not known and count for nobody; if all had failed …". */
function unknownWords({ unknown, known, hasFailed }: ComparisonParts["judged"]): string {
  if (unknown.length === 0) return "No outcome is unknown.";
  const failed = known.filter(hasFailed).length;
  const all = known.length + unknown.length;
  return `The outcome of ${counted(unknown.length, "eye")} more is not known: the rate is ${percent(failed / all)} if none of them failed, ${percent((failed + unknown.length) / all)} if all did.`;
}
