import { wilsonInterval } from "../../../statistics/wilson-interval.ts";
import type { Sentence } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { failedPhrase, rulesClause } from "../../answering/failure-words.ts";
import { count, counted, listed, percent, percentRange, pValue } from "../../answering/wording.ts";
import { doubling, enoughWords } from "../../people/enough-line.ts";
import { ownRecord } from "../../people/judged-eyes.ts";
import { operationWords, spanWords } from "../series-words.ts";
import { movingRates } from "./learning-chart.ts";
import { type CountedRate, type LearningParts, trendOf } from "./learning-parts.ts";

/** Reached, not reached, or cannot tell yet; what it rests on, and what else has changed. */
export function learningSentence(parts: LearningParts, picks: PickBook): Sentence {
  const { person, judged, eyes, failed, design } = parts;
  if (eyes.length === 0) return [`${person.code} has no operation whose outcome is known.`];
  const failedEyes = eyes.filter((_, i) => failed[i]);
  const pick = picks.add("failed", `${person.code}, failed`, failedEyes);
  const phrase = failedPhrase(judged.record, failedEyes.length);
  const at = judged.window === undefined ? "" : ` at ${judged.window.text}`;
  return [
    verdictWords(parts),
    ` ${person.code}, ${counted(eyes.length, "operation")} in order${spanWords(parts)} with the outcome${at} known: `,
    pick === undefined ? phrase : { text: phrase, role: "failed", pick },
    `${movingWords(parts)}. Held against ${percent(design.acceptable)} acceptable and ${percent(design.unacceptable)} not (${design.source ?? "no source given"}).`,
    oddsWords(parts),
    trendWords(parts),
    supervisionWords(parts),
    difficultyWords(parts),
    contextWords(parts),
    ` The outcome of ${counted(judged.unknown.length, "eye")} more is not known.`,
    enoughWords(doubling(design.acceptable)),
    ...rulesClause(ownRecord(judged)),
  ];
}

/** The verdict, and the counts that it rests on. */
export function learningBrief(parts: LearningParts): Sentence {
  const { eyes, failed, design, found } = parts;
  if (eyes.length === 0) return [];
  const words = { reached: "Reached", "not reached": "Not reached" } as const;
  const verdict = found.verdict in words ? words[found.verdict as "reached"] : "Cannot tell yet";
  const failures = failed.filter(Boolean).length;
  return [
    `${verdict}: ${failures === 0 ? "none" : count(failures)} of ${counted(eyes.length, "operation")} failed${movingWords(parts)}; ${percent(design.acceptable)} is acceptable.`,
  ];
}

function verdictWords(parts: LearningParts): string {
  const { found, design } = parts;
  const { verdict, decidedAt, up } = found;
  const level = `the acceptable level of ${percent(design.acceptable)}`;
  if (verdict === "reached") {
    return `Reached: the record speaks for ${level} since ${operationWords(parts, decidedAt ?? 0)}.`;
  }
  const more = `${counted(up.moreAtLeast, "more operation")} without a failure would show that it is reached, and about ${count(Math.round(up.moreOnAverage))} on average if the true rate is ${percent(design.acceptable)}`;
  if (verdict === "not reached") {
    return `Not reached: the record speaks against ${level} since ${operationWords(parts, decidedAt ?? 0)}; ${more}.`;
  }
  return `Cannot tell yet whether ${level} is reached: ${more}.`;
}

function movingWords({ failed, design }: LearningParts): string {
  const last = movingRates(failed, design.moving).at(-1);
  const all = failed.filter(Boolean).length / failed.length;
  const limits = wilsonInterval(failed.filter(Boolean).length, failed.length);
  const range = limits === null ? "" : `, 95% interval ${percentRange(limits)}`;
  const rates = ` (${percent(all)}${range}`;
  return last === undefined
    ? `${rates})`
    : `${rates}; of the last ${design.moving}, ${percent(last.value)})`;
}

function oddsWords({ design, found }: LearningParts): string {
  const { up, down } = found;
  const within = `within ${count(design.operations)} operations`;
  const [good, bad] = [percent(design.acceptable), percent(design.unacceptable)];
  const after = (operations: number) => count(Math.round(operations));
  return (
    ` At a true rate of ${bad} this says "reached" at some time ${within} with a probability of ${percent(up.wrongly)}, at ${good} with one of ${percent(up.rightly)}; it says "not reached" with ${percent(down.wrongly)} at ${good} and ${percent(down.rightly)} at ${bad}.` +
    ` On average "reached" comes after ${after(up.runLengthRightly)} operations at ${good} and wrongly after ${after(up.runLengthWrongly)} at ${bad}; "not reached" after ${after(down.runLengthRightly)} at ${bad} and wrongly after ${after(down.runLengthWrongly)} at ${good}.`
  );
}

/** Whether it gets better at all, whatever the level. */
function trendWords({ thirds }: LearningParts): string {
  const trend = trendOf(thirds);
  if (trend === null) return "";
  const each = listed(
    thirds.map(({ failedEyes, eyes }) => `${count(failedEyes.length)} of ${count(eyes.length)}`),
  );
  const how =
    trend.p >= 0.05 ? "no trend beyond chance" : trend.z < 0 ? "the rate falls" : "the rate rises";
  return ` By thirds in order ${each} failed: ${how} (Cochran–Armitage test of trend, ${pValue(trend.p)}).`;
}

function supervisionWords({ bySupervision }: LearningParts): string {
  if (bySupervision.length < 2) return "";
  return ` By supervision: ${listed(bySupervision.map(rateOf))}.`;
}

function rateOf({ label, failedEyes, eyes, interval }: CountedRate): string {
  const limits = interval === null ? "" : ` (95% interval ${percentRange(interval)})`;
  return `${label} ${count(failedEyes.length)} of ${count(eyes.length)}${limits}`;
}

/** Whether harder eyes came later: a rate that does not fall may hide that. */
function difficultyWords({ thirds, difficulty }: LearningParts): string {
  const values = thirds.flatMap((third) => third.difficulty ?? []);
  if (difficulty === undefined || values.length < 3) return "";
  const text = (value: number) => (difficulty.isShare ? percent(value) : value.toFixed(2));
  const [first = 0, , last = 0] = values;
  const change = first === last ? 1 : last / Math.max(first, 1e-9);
  const how =
    change > 1.15
      ? "the eyes have become harder, so the rates understate the progress"
      : change < 0.87
        ? "the eyes have become easier, so the rates overstate the progress"
        : "the eyes are about as hard as at first";
  return ` Case difficulty by thirds (${difficulty.label}) ${listed(values.map(text))}: ${how}.`;
}

function contextWords({ context }: LearningParts): string {
  if (context.length === 0) return "";
  return ` For context: ${listed(context.map(rateOf))}; they operate on other eyes.`;
}
