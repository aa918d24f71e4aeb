import type { Sentence } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { failedPhrase, rulesClause } from "../../answering/failure-words.ts";
import { capitalised, count, counted, percent, pValue } from "../../answering/wording.ts";
import { doubling, enoughWords } from "../enough-line.ts";
import { expectationWords } from "../expectation.ts";
import { knownWords } from "../judged-eyes.ts";
import { type FunnelParts, numberAt } from "./funnel-parts.ts";
import { funnelLevels } from "./funnel-units.ts";

/** How many lie outside and what chance would put there; of one person only what they asked. */
export function funnelSentence(parts: FunnelParts, picks: PickBook): Sentence {
  const { design, shown } = parts;
  const { judged } = design;
  if (shown.length === 0) return ["No eyes whose outcome is known to compare."];
  const failed = judged.known.filter(judged.hasFailed);
  const phrase = failedPhrase(judged.record, failed.length);
  const pick = parts.areNamesHidden ? undefined : picks.add("all:failed", "all, failed", failed);
  return [
    `Of ${counted(judged.known.length, "eye")} ${knownWords(judged)}, `,
    pick === undefined ? phrase : { text: phrase, role: "failed", pick },
    `. ${aroundWords(parts)}${parts.areOthersTogether ? "." : `, ${outsideWords(parts)}. ${chanceWords(shown.length)}`}`,
    ownWords(parts),
    dispersionWords(parts),
    ` The outcome of ${counted(judged.unknown.length, "eye")} more is not known.`,
    enoughWords(doubling(enoughTarget(parts))),
    ...rulesClause(judged.record),
  ];
}

/** How many lie outside; of one person only where that one was asked for. */
export function funnelBrief(parts: FunnelParts): Sentence {
  if (parts.shown.length === 0) return [];
  const own = ownWords(parts).trim();
  if (own !== "") return [own];
  return parts.areOthersTogether ? [] : [`${capitalised(outsideWords(parts))}.`];
}

function enoughTarget({ design: { judged, scale, target } }: FunnelParts): number {
  if (scale === "share") return target;
  return judged.known.filter(judged.hasFailed).length / Math.max(1, judged.known.length);
}

function aroundWords({ design, source, expectation }: FunnelParts): string {
  const { scale, target, isOwnRate, limits } = design;
  const which = limits === "exact" ? "exact" : "limits widened for over-dispersion:";
  const kind = limits === "exact" ? `${which} limits` : which;
  if (scale === "ratio") {
    return `Around as many failures as expected ${expectationWords(expectation)} (${kind})`;
  }
  const from = isOwnRate ? "the rate of all together" : (source ?? "no source given");
  return `Around ${percent(target)} (${from}; ${kind})`;
}

function outsideWords(parts: FunnelParts): string {
  const { label, shown } = parts;
  const side = (level: 0 | 1, where: "above" | "below") => {
    const number = numberAt(parts, level, where);
    return number === null || number === 0 ? "none" : count(number);
  };
  const [inner, outer] = funnelLevels.map((level) => `${Number((100 * level).toFixed(1))}%`);
  return (
    `of ${count(shown.length)} by ${label} ${side(0, "above")} above and ${side(0, "below")} below the ${inner} limits, ` +
    `${side(1, "above")} above and ${side(1, "below")} below the ${outer} limits`
  );
}

function chanceWords(people: number): string {
  const inner = people * (1 - funnelLevels[0]);
  const outer = 1 - funnelLevels[1] ** people;
  return `Where all do equally well, chance alone would put at most about ${inner.toFixed(1)} outside the first and anyone outside the second ${percent(outer)} of the time.`;
}

function ownWords({ shown, mine }: FunnelParts): string {
  const own = shown.find(({ isOwn }) => isOwn);
  if (mine === undefined) return "";
  if (own === undefined) return ` ${mine} has no eye to place.`;
  const [inner, outer] = own.positions;
  const where =
    outer !== "inside"
      ? `${outer} the 99.8% limits`
      : inner !== "inside"
        ? `${inner} the 95% limits, inside the 99.8% limits`
        : "inside the 95% limits";
  return ` ${mine}, ${count(own.failedEyes.length)} failed of ${count(own.eyes.length)}, lies ${where} (exact test, ${pValue(own.p)}).`;
}

function dispersionWords({ found: { dispersion }, label }: FunnelParts): string {
  if (dispersion === null) return "";
  const { statistic, degreesOfFreedom, pValue: p, phi } = dispersion;
  const test = `chi-square ${statistic.toFixed(1)} on ${counted(degreesOfFreedom, "degree")} of freedom, ${pValue(p)}`;
  if (p >= 0.05) return ` By ${label} they differ no more than chance explains (${test}).`;
  return ` By ${label} they differ more than chance explains (${test}; variance ${phi.toFixed(1)} times that of chance, winsorised by a tenth): something that is not in the limits tells them apart, so read a point outside with that in mind.`;
}
