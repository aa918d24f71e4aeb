import type { GivenArguments, Parameter } from "../../../formula/vocabulary.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import type { Problem } from "../../../problem/problem.ts";
import { PickBook, pickRecord } from "../../answering/answered-eyes.ts";
import { expectationParameters, factorsParameter } from "../../people/expectation.ts";
import { judgingParameters } from "../../people/judged-eyes.ts";
import { surgeonParameter } from "../../people/one-person.ts";
import { datedByOperation, resetByHand } from "../../people/people-cautions.ts";
import { eyesGiven, eyesParameter, numberGiven, question, type Worked } from "../../question.ts";
import { type PersonSeries, personSeries } from "../person-series.ts";
import { leftOutOfSeries, seriesCautions } from "../series-words.ts";
import { type CusumParts, cusumFigures, drawnCusum } from "./cusum-parts.ts";
import { cusumBrief, cusumSentence } from "./cusum-sentence.ts";
import { cusumTable } from "./cusum-table.ts";
import { type Resets, resetParameters, resetsGiven } from "./resets.ts";
import { watchedDirection } from "./watched-direction.ts";

const usual = { oddsRatio: 2, runLength: 500 } as const;

/**
 * Has it got worse, or better? One surgeon's operations in order, as a risk-adjusted log-likelihood
 * CUSUM both ways (Steiner et al. 2000). The limits are searched for, so that with nothing changed a
 * signal comes once in the stated number of operations on average for this surgeon's own case mix
 * (Markov chain, no simulation); with them come the probability of a false signal over the operations
 * shown and how soon, and how surely, the change would be noticed. A signal is dated and opens its run.
 */
export const cusum = question(
  {
    name: "cusum",
    meaning: "one surgeon's failures against those expected, watched for a change",
    asks: "Has it got worse, or better?",
    example: 'cusum(eyes, risk_stratum, surgeon: "E", odds_ratio: 2, run_length: 500)',
    parameters: [
      eyesParameter,
      surgeonParameter,
      number(
        "odds_ratio",
        "how many times the odds to watch for, and its inverse",
        usual.oddsRatio,
      ),
      number(
        "run_length",
        "operations on average until a signal comes where nothing has changed, from which the limit follows",
        usual.runLength,
      ),
      ...resetParameters,
      ...expectationParameters,
      ...judgingParameters,
      factorsParameter,
    ],
  },
  work,
);

function number(name: string, meaning: string, otherwise: number): Parameter {
  const takes = "value" as const;
  const whenLeftOut = String(otherwise);
  return {
    name,
    meaning,
    takes,
    kinds: ["number"],
    required: false,
    whenLeftOut,
    byNameOnly: true,
  };
}

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const oddsRatio = numberGiven(given, "odds_ratio") ?? usual.oddsRatio;
  const runLength = numberGiven(given, "run_length") ?? usual.runLength;
  const found = personSeries(record, given);
  const again = resetsGiven(given);
  const problems = [
    ...designFaults({ oddsRatio, runLength }, given),
    ...[found, again].flatMap((each) => ("problems" in each ? each.problems : [])),
  ];
  if (problems.length > 0 || "problems" in found || "problems" in again) return { problems };
  const parts = partsOf(found.series, again.resets, { oddsRatio, runLength });
  return parts === null ? { problems: [noLimit(runLength, given)] } : answer(parts, record);
}

function partsOf(
  series: PersonSeries,
  resets: Resets,
  { oddsRatio, runLength }: { readonly oddsRatio: number; readonly runLength: number },
): CusumParts | null {
  const { failed, risks, days } = series;
  const resetAt = resets.each.map(({ day }) => {
    const at = days.findIndex((each) => each !== null && each >= day);
    return at < 0 ? days.length : at;
  });
  if (series.eyes.length === 0) return noOperations(series, resets, runLength);
  const uncertainty = uncertaintyOf(series.basis);
  const watched = { failed, risks, resets: resetAt, runLength, uncertainty };
  const worse = watchedDirection(watched, oddsRatio);
  const better = watchedDirection(watched, 1 / oddsRatio);
  if (worse === null || better === null) return null;
  return { series, worse, better, runLength, resets, resetAt };
}

/** The standard error of the log odds of failure among the eyes of others. */
function uncertaintyOf(basis: PersonSeries["basis"]): number {
  if (basis === null || basis.failures === 0 || basis.failures === basis.eyes) return 0;
  return Math.sqrt(1 / basis.failures + 1 / (basis.eyes - basis.failures));
}

function noOperations(series: PersonSeries, resets: Resets, runLength: number): CusumParts {
  const nothing = {
    limit: Number.NaN,
    values: [],
    signals: [],
    runLengthInControl: Number.NaN,
    runLengthChanged: Number.NaN,
    falseWithin: 0,
    noticedWithin: 0,
  };
  const worse = { ...nothing, oddsRatio: usual.oddsRatio };
  return {
    series,
    worse,
    better: { ...nothing, oddsRatio: 1 / usual.oddsRatio },
    runLength,
    resets,
    resetAt: [],
  };
}

function answer(parts: CusumParts, record: EyeRecord): Worked {
  const { series } = parts;
  const picks = new PickBook();
  const hasAny = series.eyes.length > 0;
  const signals = parts.worse.signals.length + parts.better.signals.length;
  const leftOut = leftOutOfSeries(series, picks);
  return {
    answered: {
      answer: {
        question: "cusum",
        asks: "Has it got worse, or better?",
        sentence: cusumSentence(parts, picks),
        brief: cusumBrief(parts),
        table: hasAny ? cusumTable(parts, picks) : { columns: [], rows: [] },
        ...(hasAny
          ? { chart: { draw: "monitoring" as const, monitoring: drawnCusum(parts, picks) } }
          : {}),
        cautions: [
          ...seriesCautions(series, leftOut),
          ...datedByOperation(signals, series.judged.window?.text),
          ...resetByHand(parts.resetAt.length),
        ],
        unit: "eyes",
        used: series.eyes.length,
        leftOut,
        figures: hasAny ? cusumFigures(parts) : { operations: 0, failed: 0 },
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function designFaults(
  { oddsRatio, runLength }: { readonly oddsRatio: number; readonly runLength: number },
  given: GivenArguments,
): Problem[] {
  const refused: readonly (readonly [string, boolean, number, string])[] = [
    ["odds_ratio", oddsRatio > 1 && oddsRatio <= 20, oddsRatio, "a number above 1, such as 2"],
    [
      "run_length",
      runLength >= 20 && runLength <= 100_000,
      runLength,
      "a number of operations from 20 to 100,000, such as 500",
    ],
  ];
  return refused
    .filter(([, isRight]) => !isRight)
    .map(([name, , value, expected]) => ({
      code: "cusum-design",
      severity: "stop",
      place: { span: given.values.get(name)?.span ?? given.span },
      message: `${name} cannot be ${value}`,
      found: String(value),
      expected,
    }));
}

function noLimit(runLength: number, given: GivenArguments): Problem {
  return {
    code: "cusum-design",
    severity: "stop",
    place: { span: given.span },
    message: `at these risks no limit signals once in about ${runLength} operations`,
    expected: "a run length that some limit has",
    remedy: "give a larger run_length, or a risk that is not so near 0 or 1",
  };
}
