import { dayText } from "../../../formula/calendar.ts";
import type { Sentence } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { rulesClause } from "../../answering/failure-words.ts";
import { capitalised, count, counted, listed, percent } from "../../answering/wording.ts";
import { ownRecord } from "../../people/judged-eyes.ts";
import { operationWords, seriesHead } from "../series-words.ts";
import { type CusumParts, oddsWords, runKey, runOf } from "./cusum-parts.ts";
import type { CusumSignal, WatchedDirection } from "./watched-direction.ts";

/** What signalled and on which run of eyes; then how often it would by chance, and how soon by right. */
export function cusumSentence(parts: CusumParts, picks: PickBook): Sentence {
  const { series, worse, better } = parts;
  if (series.eyes.length === 0) {
    return [`${series.person.code} has no operation whose outcome is known.`];
  }
  return [
    ...seriesHead(series, picks),
    ...signalClause(parts, worse),
    ...signalClause(parts, better),
    oddsClause(parts, worse),
    oddsClause(parts, better),
    resetClause(parts),
    ` The outcome of ${counted(series.judged.unknown.length, "eye")} more is not known.`,
    ...rulesClause(ownRecord(series.judged)),
  ];
}

function signalClause(parts: CusumParts, direction: WatchedDirection): Sentence {
  const { signals, values, limit } = direction;
  const watched = ` Watched for ${oddsWords(direction.oddsRatio)}`;
  if (signals.length === 0) {
    const now = values.at(-1) ?? 0;
    return [
      `${watched}, the sum does not reach its limit of ${limit.toFixed(2)} (now ${now.toFixed(2)}).`,
    ];
  }
  return [
    `${watched}, the sum reaches its limit of ${limit.toFixed(2)} ${timesWords(signals.length)}: `,
    ...signals.flatMap((signal, i) => [
      i === 0 ? "" : "; ",
      ...runClause(parts, direction, signal),
    ]),
    ".",
  ];
}

/** In words where a figure would run into the limit before it: "twice". */
function timesWords(times: number): string {
  return ["", "once", "twice", "three times", "four times"][times] ?? `(${count(times)} times)`;
}

function runClause(parts: CusumParts, direction: WatchedDirection, signal: CusumSignal): Sentence {
  const { eyes, failed, expected } = runOf(parts, signal);
  return [
    `at ${operationWords(parts.series, signal.position)}, at the end of `,
    {
      text: `a run of ${counted(eyes.length, "eye")} since ${operationWords(parts.series, signal.from)}`,
      pick: runKey(direction, signal),
    },
    `, of which ${count(failed.length)} failed and ${expected.toFixed(1)} were expected to`,
  ];
}

/** Whether it signalled, and where last. */
export function cusumBrief(parts: CusumParts): Sentence {
  const { series, worse, better } = parts;
  if (series.eyes.length === 0) return [];
  return [
    `${series.person.code}, ${counted(series.eyes.length, "operation")}: ${signalBrief(parts, worse)}; ${signalBrief(parts, better)}.`,
  ];
}

function signalBrief({ series }: CusumParts, { signals, oddsRatio }: WatchedDirection): string {
  const last = signals.at(-1);
  if (last === undefined) return `no signal for ${oddsWords(oddsRatio)}`;
  const times = signals.length === 1 ? "at" : `${timesWords(signals.length)}, last at`;
  return `a signal for ${oddsWords(oddsRatio)} ${times} ${operationWords(series, last.position)}`;
}

/** The odds of a wrong signal and of a missed one, for this mix of risks. */
function oddsClause({ series }: CusumParts, direction: WatchedDirection): string {
  const { runLengthInControl, runLengthChanged, falseWithin, noticedWithin, oddsRatio } = direction;
  const number = counted(series.eyes.length, "operation");
  const allowed = series.basis === null ? "" : " (the uncertainty of what is expected allowed for)";
  return (
    ` ${capitalised(oddsWords(oddsRatio))}: where nothing has changed it signals by chance once in ${count(Math.round(runLengthInControl))} operations on average, and with a probability of ${percent(falseWithin)} within ${number}${allowed}; ` +
    `where the odds are so from the first operation on, it signals after ${count(Math.round(runLengthChanged))} on average, and with a probability of ${percent(noticedWithin)} within ${number}.`
  );
}

function resetClause({ resets, resetAt }: CusumParts): string {
  if (resetAt.length === 0) return "";
  const each = resets.each.map(({ day, because }) => `${dayText(day)} (${because})`);
  return ` The sums begin again at 0 on ${listed(each)}.`;
}
