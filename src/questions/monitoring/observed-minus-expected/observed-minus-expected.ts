import type { Monitoring } from "../../../charts/monitoring.ts";
import type { GivenArguments } from "../../../formula/vocabulary.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import {
  observedMinusExpected as lineOf,
  type ObservedMinusExpected,
} from "../../../statistics/observed-minus-expected.ts";
import type { AnswerTable, FigureRecord, Sentence } from "../../answer.ts";
import { PickBook, pickRecord } from "../../answering/answered-eyes.ts";
import { rulesClause } from "../../answering/failure-words.ts";
import { count, counted, percent } from "../../answering/wording.ts";
import { doubling, enoughWords } from "../../people/enough-line.ts";
import { expectationParameters, factorsParameter } from "../../people/expectation.ts";
import { judgingParameters, ownRecord } from "../../people/judged-eyes.ts";
import { surgeonParameter } from "../../people/one-person.ts";
import { holdsAtOneOperation } from "../../people/people-cautions.ts";
import { eyesGiven, eyesParameter, question, type Worked } from "../../question.ts";
import { type PersonSeries, personSeries } from "../person-series.ts";
import {
  leftOutOfSeries,
  operationWords,
  placesOf,
  seriesCautions,
  seriesHead,
} from "../series-words.ts";
import { furthest, type LineOdds, lineOdds } from "./line-odds.ts";

interface LineParts {
  readonly series: PersonSeries;
  readonly line: ObservedMinusExpected;
  /** Undefined without an operation. */
  readonly odds: LineOdds | undefined;
}

/**
 * How far from what was expected? One surgeon's running sum of observed less expected failures in
 * order of operation: up is worse (Lovegrove et al., Lancet 1997;350:1128, draw it turned over). The
 * exact 95% limits (Poisson-binomial) hold at one operation chosen beforehand, not along the line.
 */
export const observedMinusExpected = question(
  {
    name: "observed_minus_expected",
    meaning: "one surgeon's running sum of observed less expected failures",
    asks: "How far from what was expected?",
    example: 'observed_minus_expected(eyes, risk_stratum, surgeon: "E")',
    parameters: [
      eyesParameter,
      surgeonParameter,
      ...expectationParameters,
      ...judgingParameters,
      factorsParameter,
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const found = personSeries(record, given);
  if ("problems" in found) return found;
  const { series } = found;
  const odds = series.eyes.length === 0 ? undefined : lineOdds(series.risks);
  return answer({ series, line: lineOf(series.failed, series.risks), odds }, record);
}

function answer(parts: LineParts, record: EyeRecord): Worked {
  const { series } = parts;
  const picks = new PickBook();
  const leftOut = leftOutOfSeries(series, picks);
  return {
    answered: {
      answer: {
        question: "observed_minus_expected",
        asks: "How far from what was expected?",
        sentence: lineSentence(parts, picks),
        brief: lineBrief(parts),
        table: lineTable(parts, picks),
        ...(series.eyes.length === 0
          ? {}
          : { chart: { draw: "monitoring" as const, monitoring: drawnLine(parts, picks) } }),
        cautions: [holdsAtOneOperation(), ...seriesCautions(series, leftOut)],
        unit: "eyes",
        used: series.eyes.length,
        leftOut,
        figures: lineFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function lineSentence(parts: LineParts, picks: PickBook): Sentence {
  const { series, line } = parts;
  const last = series.eyes.length - 1;
  if (last < 0) return [`${series.person.code} has no operation whose outcome is known.`];
  const expected = line.expected[last] ?? 0;
  return [
    ...seriesHead(series, picks),
    ` Observed less expected is ${signed(line.difference[last] ?? 0)} at the last operation, where 95% of such series would lie between ${signed(line.lower[last] ?? 0)} and ${signed(line.upper[last] ?? 0)} (exact, and at that one operation only): ${whereWords(parts, last)}.`,
    oddsWords(parts),
    ` The outcome of ${counted(series.judged.unknown.length, "eye")} more is not known.`,
    enoughWords(doubling(expected / series.eyes.length)),
    ...rulesClause(ownRecord(series.judged)),
  ];
}

function lineBrief(parts: LineParts): Sentence {
  const { series, line } = parts;
  const last = series.eyes.length - 1;
  if (last < 0) return [];
  const limits = `${signed(line.lower[last] ?? 0)} to ${signed(line.upper[last] ?? 0)}`;
  return [
    `${series.person.code}, ${counted(series.eyes.length, "operation")}: observed less expected ${signed(line.difference[last] ?? 0)}, ${whereWords(parts, last)} (95%, ${limits}).`,
  ];
}

/** The odds of both mistakes where the line is watched all along. */
function oddsWords({ series, odds }: LineParts): string {
  if (odds === undefined) return "";
  const { falseWithin, falseByHalf, noticedWithin, noticedAfter } = odds;
  const within = `within ${counted(series.eyes.length, "operation")}`;
  const half =
    falseByHalf === null
      ? `half of such lines still keep within them after ${count(furthest)}`
      : `half of such lines have crossed one after ${count(falseByHalf)}`;
  const noticed =
    noticedAfter === null
      ? "after more operations than were followed"
      : `after ${count(Math.round(noticedAfter))} on average`;
  return (
    ` Watched all along, where nothing has changed it crosses a limit by chance with a probability of ${percent(falseWithin)} ${within} (no mean number of operations until then exists; ${half}); ` +
    `where the odds are doubled from the first operation on, it crosses the upper one ${noticed}, and with a probability of ${percent(noticedWithin)} ${within}.`
  );
}

function whereWords({ line }: LineParts, at: number): string {
  const difference = line.difference[at] ?? 0;
  if (difference > (line.upper[at] ?? 0)) return "more failures than the limits allow";
  if (difference < (line.lower[at] ?? 0)) return "fewer failures than the limits allow";
  return "inside the limits";
}

/** "+3.1", "−0.4", "0.0". */
function signed(value: number): string {
  const text = Math.abs(value).toFixed(1);
  if (Number(text) === 0) return text;
  return `${value > 0 ? "+" : "−"}${text}`;
}

/** A row at every tenth of the series, and at its end. */
function lineTable({ series, line }: LineParts, picks: PickBook): AnswerTable {
  const number = series.eyes.length;
  const step = Math.max(1, Math.ceil(number / 10));
  const rows = Array.from({ length: number }, (_, i) => i).filter(
    (i) => i === number - 1 || (i + 1) % step === 0,
  );
  return {
    columns: [
      { label: "up to", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "expected", kind: "number" },
      { label: "observed less expected", kind: "number" },
      { label: "95% limits at this operation", kind: "interval" },
    ],
    rows: rows.map((i) => {
      const eyes = series.eyes.slice(0, i + 1);
      const failed = eyes.filter((_, k) => series.failed[k]);
      const [lower, upper] = [line.lower[i] ?? 0, line.upper[i] ?? 0];
      const words = operationWords(series, i);
      return [
        { text: words, value: words },
        picks.cell(`upto${i}`, `up to ${words}`, eyes),
        picks.cell(`upto${i}:failed`, `up to ${words}, failed`, failed),
        { text: (line.expected[i] ?? 0).toFixed(1), value: line.expected[i] ?? 0 },
        { text: signed(line.difference[i] ?? 0), value: line.difference[i] ?? 0 },
        {
          text: `${signed(lower)}\u00a0–\u00a0${signed(upper)}`,
          value: null,
          limits: { lower, upper },
        },
      ];
    }),
  };
}

function drawnLine({ series, line }: LineParts, picks: PickBook): Monitoring {
  const points = Array.from(line.difference, (value, i) => ({ at: i + 1, value }));
  const side = (column: Float64Array) => ({
    points: [{ at: 0, value: 0 }, ...Array.from(column, (value, i) => ({ at: i + 1, value }))],
    isDashed: true,
  });
  return {
    places: placesOf(series),
    across: series.isByDay ? "operations in order, by month" : "operations in order",
    panels: [
      {
        title: "observed less expected; dashed: 95% limits at one operation",
        kind: "number",
        lines: [{ points: [{ at: 0, value: 0 }, ...points] }, side(line.upper), side(line.lower)],
        dots: series.eyes.flatMap((eye, i) => {
          if (!series.failed[i]) return [];
          const pick = picks.add(`eye${i}`, `${series.person.code}, operation ${i + 1}`, [eye]);
          const dot = { at: i + 1, value: line.difference[i] ?? 0, tone: "failed" as const };
          return [pick === undefined ? dot : { ...dot, pick }];
        }),
        references: [{ value: 0 }],
        signals: [],
        breaks: [],
      },
    ],
  };
}

function lineFigures({ series, line, odds }: LineParts): FigureRecord {
  const last = series.eyes.length - 1;
  const failed = series.failed.filter(Boolean).length;
  const at = (column: Float64Array) => column[last] ?? null;
  return {
    surgeon: series.person.code,
    operations: series.eyes.length,
    failed,
    headline: `${count(failed)} of ${count(series.eyes.length)}`,
    headline_rate: series.eyes.length === 0 ? null : failed / series.eyes.length,
    expected: at(line.expected),
    difference: at(line.difference),
    lower: at(line.lower),
    upper: at(line.upper),
    false_signal_within: odds?.falseWithin ?? null,
    false_signal_by_half: odds?.falseByHalf ?? null,
    noticed_within: odds?.noticedWithin ?? null,
    run_length_doubled: odds?.noticedAfter ?? null,
    not_known: series.judged.unknown.length,
    too_recent: series.judged.tooRecent.length,
    line: [...line.difference],
  };
}
