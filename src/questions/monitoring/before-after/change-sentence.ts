import { pointsText, ratioText } from "../../../charts/effect-intervals.ts";
import type { Sentence } from "../../answer.ts";
import { pointsRange, ratioRange } from "../../answering/effect-cells.ts";
import { rulesClause } from "../../answering/failure-words.ts";
import { count, counted, percent, percentRange, pValue } from "../../answering/wording.ts";
import { doubling, enoughWords } from "../../people/enough-line.ts";
import { knownWords } from "../../people/judged-eyes.ts";
import { oddsOf, periodOddsWords } from "../periods/period-odds-words.ts";
import { type ChangeParts, namedSides } from "./change-parts.ts";
import type { ExpectedAfter } from "./two-sides.ts";

/** Both rates, their difference, and what case mix leaves of it. */
export function changeSentence(parts: ChangeParts): Sentence {
  const { judged, compared, adjusted, sides } = parts;
  const [before, after] = namedSides(parts);
  if (before === undefined || after === undefined || judged.known.length === 0) {
    return ["No eyes whose outcome is known to compare."];
  }
  const rates = [before, after].flatMap(
    ({ label, key, eyes, failed, rate, interval }, i): Sentence => [
      i === 0 ? "Of eyes " : " and of those ",
      `operated on ${label} ${knownWords(eyes)}, `,
      failed.length === 0
        ? "none"
        : { text: count(failed.length), role: "failed", pick: `${key}:failed` },
      ` of ${count(eyes.known.length)} failed`,
      interval === null ? "" : ` (${percent(rate)}, 95% Wilson interval ${percentRange(interval)})`,
    ],
  );
  const { difference, exact } = compared;
  const apart =
    difference === null || exact === null
      ? ". On one side no outcome is known, so there is no difference to tell."
      : `: a difference of ${pointsText(difference.estimate)} percentage points (95% Newcombe interval ${pointsRange(difference)}; Fisher's exact test, ${pValue(exact.pTwoSided)}).`;
  return [
    ...rates,
    apart,
    adjustedWords(adjusted, parts.terms),
    ` The outcome of ${counted(sides.before.unknown.length, "eye")} before and of ${counted(sides.after.unknown.length, "eye")} after is not known.`,
    chartWords(parts),
    enoughWords(doubling(before.rate ?? 0)),
    ...rulesClause(judged.record),
  ];
}

/** How often a quarter of the chart lies outside by chance. */
function chartWords({ quarters: { before, after } }: ChangeParts): string {
  const drawn = [...before, ...after];
  return drawn.length === 0
    ? ""
    : ` In the chart: ${lowerFirst(periodOddsWords(drawn, oddsOf(drawn)))}`;
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

function adjustedWords(adjusted: ExpectedAfter | undefined, terms: string): string {
  if (adjusted === undefined) return "";
  const { ratio, observed, eyes, cannot } = adjusted;
  if (ratio === null)
    return ` Case mix cannot be allowed for: ${cannot ?? "no eye after has a risk"}.`;
  return ` Of the ${counted(eyes.length, "eye")} after on which ${terms} is recorded ${count(observed)} failed, where a model of the eyes before expects ${ratio.expected.toFixed(1)}: observed over expected ${ratioText(ratio.estimate)} (95% ${ratio.method} interval ${ratioRange(ratio)}; exact test, ${pValue(ratio.p)}).`;
}
