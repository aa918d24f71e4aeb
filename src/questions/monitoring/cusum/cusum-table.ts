import type { AnswerCell, AnswerTable } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { noEstimate } from "../../answering/estimate-cell.ts";
import { count, percent } from "../../answering/wording.ts";
import { operationWords } from "../series-words.ts";
import { type CusumParts, oddsWords, runKey, runOf } from "./cusum-parts.ts";
import type { CusumSignal, WatchedDirection } from "./watched-direction.ts";

/** A row a direction with its odds; under it a row a signal with the run of eyes behind it. */
export function cusumTable(parts: CusumParts, picks: PickBook): AnswerTable {
  const { worse, better, series } = parts;
  const number = count(series.eyes.length);
  return {
    columns: [
      { label: "watched for", kind: "text" },
      { label: "limit", kind: "number" },
      { label: "operations to a false signal, mean", kind: "number" },
      { label: `false signal within ${number}`, kind: "number" },
      { label: "operations to notice it, mean", kind: "number" },
      { label: `noticed within ${number}`, kind: "number" },
      { label: "sum now", kind: "number" },
      { label: "signal at", kind: "text" },
      { label: "run since", kind: "text" },
      { label: "eyes of the run", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "expected", kind: "number" },
    ],
    rows: [worse, better].flatMap((direction) => rowsOf(parts, direction, picks)),
  };
}

function rowsOf(parts: CusumParts, direction: WatchedDirection, picks: PickBook): AnswerCell[][] {
  const [first, ...more] = direction.signals;
  const head = designCells(direction);
  const blank = head.map((): AnswerCell => ({ text: "", value: null }));
  const none = [{ text: "none", value: null }, noEstimate, noEstimate, noEstimate, noEstimate];
  const cells = (signal: CusumSignal) => signalCells(parts, { direction, signal, picks });
  return [
    [...head, ...(first === undefined ? none : cells(first))],
    ...more.map((signal) => [...blank, ...cells(signal)]),
  ];
}

function designCells(direction: WatchedDirection): AnswerCell[] {
  const { limit, runLengthInControl, runLengthChanged, falseWithin, noticedWithin } = direction;
  const now = direction.values.at(-1) ?? 0;
  const whole = (value: number): AnswerCell => ({ text: count(Math.round(value)), value });
  const share = (value: number): AnswerCell => ({ text: percent(value), value });
  const words = oddsWords(direction.oddsRatio);
  return [
    { text: words, value: words },
    { text: limit.toFixed(2), value: limit },
    whole(runLengthInControl),
    share(falseWithin),
    whole(runLengthChanged),
    share(noticedWithin),
    { text: now.toFixed(2), value: now },
  ];
}

function signalCells(
  parts: CusumParts,
  at: {
    readonly direction: WatchedDirection;
    readonly signal: CusumSignal;
    readonly picks: PickBook;
  },
): AnswerCell[] {
  const { direction, signal, picks } = at;
  const { eyes, failed, expected } = runOf(parts, signal);
  const key = runKey(direction, signal);
  const title = `run of eyes before the signal at ${operationWords(parts.series, signal.position)}`;
  const text = (position: number): AnswerCell => {
    const words = operationWords(parts.series, position);
    return { text: words, value: words };
  };
  return [
    text(signal.position),
    text(signal.from),
    picks.cell(key, title, eyes),
    picks.cell(`${key}:failed`, `${title}, failed`, failed),
    { text: expected.toFixed(1), value: expected },
  ];
}
