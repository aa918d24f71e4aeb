import { pointsText, ratioText } from "../../../charts/effect-intervals.ts";
import type { Sentence } from "../../answer.ts";
import { pointsRange, ratioRange } from "../../answering/effect-cells.ts";
import { failedPhrase, rulesClause } from "../../answering/failure-words.ts";
import { count, counted, percent, percentRange, pValue } from "../../answering/wording.ts";
import { doubling, enoughWords } from "../enough-line.ts";
import { expectationWords } from "../expectation.ts";
import { ownRecord } from "../judged-eyes.ts";
import { withoutPerson } from "../one-person.ts";
import type { OwnParts } from "./my-eyes-parts.ts";

/** What is known and what was lost first; then the rate, the unit's, and the eyes to look at. */
export function ownSentence(parts: OwnParts): Sentence {
  const { judged, person } = parts;
  const all = judged.known.length + judged.unknown.length + judged.tooRecent.length;
  if (judged.known.length === 0) {
    return [`Of ${counted(all, "eye")} of ${person.code} none has a known outcome yet.`];
  }
  return [
    ...knownClause(parts),
    ...rateClause(parts),
    expectedWords(parts),
    ...reviewClause(parts),
    enoughWords(doubling(parts.standard)),
    ...rulesClause(ownRecord(judged)),
  ];
}

function knownClause({ judged, person, result }: OwnParts): Sentence {
  const { known, unknown, tooRecent, window } = judged;
  const closed = known.length + unknown.length;
  const at = window === undefined ? "" : ` at ${window.text}`;
  const late = tooRecent.length === 0 ? "" : ` (${count(tooRecent.length)} more are too recent)`;
  const head = `Of ${counted(closed, "eye")} of ${person.code}${late}, the outcome${at} is known for ${count(known.length)} (${percent(known.length / closed)}).`;
  if (unknown.length === 0) return [head];
  const failed = result.failedEyes.length;
  const weight =
    unknown.length > closed / 10
      ? " So many are lost that the rate below rests on the rest:"
      : " The rate would be";
  return [
    `${head} `,
    { text: `That of ${counted(unknown.length, "eye")} is not known`, pick: "review:unknown" },
    `.${weight} ${percent(failed / closed)} if none of them failed, ${percent((failed + unknown.length) / closed)} if all did.`,
  ];
}

function rateClause({ judged, person, strata, result }: OwnParts): Sentence {
  const failed = result.failedEyes;
  const phrase = failedPhrase(judged.record, failed.length);
  const [all] = strata;
  const others = all?.others;
  const rate =
    result.interval === null
      ? ""
      : `: ${percent(result.rate)} (95% Wilson interval ${percentRange(result.interval)})`;
  const beside =
    others === undefined || others.rate === null || all?.difference == null
      ? "."
      : `; in ${withoutPerson(person)} ${count(others.failedEyes.length)} of ${count(others.judged.known.length)} (${percent(others.rate)}), a difference of ${pointsText(all.difference.estimate)} percentage points (95% Newcombe interval ${pointsRange(all.difference)}).`;
  return [
    " Of those known ",
    failed.length === 0 ? phrase : { text: phrase, role: "failed", pick: "s0:failed" },
    `${rate}${beside}`,
  ];
}

function expectedWords({ result, expectation }: OwnParts): string {
  const { ratio, observed, cannot } = result;
  if (ratio === null) return ` Nothing can be expected: ${cannot ?? "no eye has a risk"}.`;
  return ` ${capital(count(observed))} failed where ${ratio.expected.toFixed(1)} were expected ${expectationWords(expectation)}: observed over expected ${ratioText(ratio.estimate)} (95% ${ratio.method} interval ${ratioRange(ratio)}; exact test, ${pValue(ratio.p)}).`;
}

function capital(text: string): string {
  return text === "0" ? "None" : text;
}

function reviewClause({ review }: OwnParts): Sentence {
  if (review.length === 0) return [" No eye stands out to be looked at again."];
  return [
    " To look at again: ",
    ...review.flatMap(
      ({ key, why, eyes }, i): Sentence => [
        i === 0 ? "" : "; ",
        { text: `${why} (${count(eyes.length)})`, pick: `review:${key}` },
      ],
    ),
    ".",
  ];
}
