import type { Problem } from "../../problem/problem.ts";
import { logisticFirthEstimates } from "../../statistics/logistic-firth.ts";
import { logisticRegression } from "../../statistics/logistic-regression.ts";
import { counted } from "../answering/wording.ts";
import { dataOf, type ModelData } from "../modelling/model-data.ts";
import type { Expectation } from "./expectation.ts";
import { type ExpectedModel, enoughPerColumn } from "./expected-model-cautions.ts";
import type { JudgedEyes } from "./judged-eyes.ts";

/** The expected risk of each eye of one person, from what others' eyes or a paper say. */
export interface ExpectedRisks {
  /** Eyes that have a risk, in the order given. */
  readonly eyes: readonly number[];
  readonly risks: readonly number[];
  /** Eyes for which no risk can be told, by why. */
  readonly silent: readonly { readonly reason: string; readonly eyes: readonly number[] }[];
  /** The eyes of others that it rests on, and the failures among them; null for a paper's. */
  readonly basis: { readonly eyes: number; readonly failures: number } | null;
  /** The model that told them; null where none did. */
  readonly model: ExpectedModel | null;
}

export type RisksOf = (own: readonly number[]) => ExpectedRisks | { readonly cannot: string };

/**
 * A way to tell the risks of any person's known eyes from the known eyes of all others; a term that
 * is the same everywhere, or a day, is a problem.
 */
export function expectedRisks(
  judged: JudgedEyes,
  expectation: Expectation,
): { readonly risksOf: RisksOf } | { readonly problems: readonly Problem[] } {
  if (expectation.kind === "published") {
    return { risksOf: (own) => published(own, expectation.risk.at) };
  }
  if (expectation.kind === "others") return { risksOf: (own) => rateOfOthers(own, judged) };
  const found = dataOf(judged.record, judged.known, expectation.terms);
  if ("problems" in found) return found;
  return { risksOf: (own) => modelled(own, found.data, judged) };
}

function published(own: readonly number[], at: (eye: number) => unknown): ExpectedRisks {
  const eyes = own.filter((eye) => typeof at(eye) === "number");
  const silent = own.filter((eye) => typeof at(eye) !== "number");
  return {
    eyes,
    risks: eyes.map((eye) => at(eye) as number),
    silent: reasons([["the expected risk not recorded", silent]]),
    basis: null,
    model: null,
  };
}

function rateOfOthers(own: readonly number[], judged: JudgedEyes): ReturnType<RisksOf> {
  const mine = new Set(own);
  const others = judged.known.filter((eye) => !mine.has(eye));
  const failures = others.filter(judged.hasFailed).length;
  if (failures === 0 || failures === others.length) {
    return {
      cannot: `${failures === 0 ? "none" : "all"} of ${counted(others.length, "eye")} of others failed`,
    };
  }
  const rate = failures / others.length;
  const basis = { eyes: others.length, failures };
  return { eyes: own, risks: own.map(() => rate), silent: [], basis, model: null };
}

/** As in a model of all eyes: this many failures a column at least, and altogether. */
const fewest = { perColumn: 2, altogether: 5 };

function modelled(
  own: readonly number[],
  data: ModelData,
  judged: JudgedEyes,
): ReturnType<RisksOf> {
  const mine = new Set(own);
  const rows = data.eyes.map((eye, row) => ({ eye, row }));
  const others = rows.filter(({ eye }) => !mine.has(eye));
  const outcome = others.map(({ eye }) => judged.hasFailed(eye));
  const model = modelOfOthers(data, others, outcome);
  if ("cannot" in model) return model;
  const complete = rows.filter(({ eye }) => mine.has(eye));
  const told = complete.filter(({ row }) => model.isLike(row));
  const unlike = complete.filter(({ row }) => !model.isLike(row));
  const ownSilent = data.silent.map(
    ({ reason, eyes }) => [reason, eyes.filter((eye) => mine.has(eye))] as const,
  );
  return {
    eyes: told.map(({ eye }) => eye),
    risks: told.map(({ row }) => model.riskOf(row)),
    silent: reasons([
      ...ownSilent,
      ["no eye of others has the same risk factor", unlike.map(({ eye }) => eye)],
    ]),
    basis: { eyes: others.length, failures: outcome.filter(Boolean).length },
    model: model.fitted,
  };
}

/** A model of the eyes of others, by row of the data. */
interface ModelOfOthers {
  readonly riskOf: (row: number) => number;
  /** Whether a row has no factor that is the same in all eyes of others and other in this one. */
  readonly isLike: (row: number) => boolean;
  readonly fitted: ExpectedModel;
}

function modelOfOthers(
  data: ModelData,
  others: readonly { readonly row: number }[],
  outcome: readonly boolean[],
): ModelOfOthers | { readonly cannot: string } {
  const columns = data.columns.map(({ values }) => others.map(({ row }) => values[row] ?? 0));
  const varied = columns.map((column) => new Set(column).size > 1);
  const used = varied.flatMap((varies, column) => (varies ? [column] : []));
  const failures = outcome.filter(Boolean).length;
  const rarer = Math.min(failures, others.length - failures);
  if (rarer < Math.max(fewest.altogether, fewest.perColumn * used.length)) {
    const among = `${counted(failures, "failure")} among ${counted(others.length, "eye")} of others`;
    const cannot =
      used.length === 0
        ? `${among} are too few to expect anything from`
        : `${among} cannot carry a model of ${counted(used.length, "column")}`;
    return { cannot };
  }
  const covariates = used.map((column) => columns[column] ?? []);
  const fit = fitOthers(outcome, covariates, rarer);
  if (fit === null) return { cannot: "two terms cannot be told apart in the eyes of others" };
  const heldBy = (column: number, row: number): number => data.columns[column]?.values[row] ?? 0;
  return {
    riskOf: (row) =>
      riskOf(
        fit,
        used.map((column) => heldBy(column, row)),
      ),
    isLike: (row) => varied.every((varies, c) => varies || heldBy(c, row) === columns[c]?.[0]),
    fitted: { rarer, columns: used.length, isPenalised: fit.isPenalised },
  };
}

interface FittedRisk {
  readonly intercept: number;
  readonly slopes: readonly number[];
  readonly isPenalised: boolean;
}

/**
 * Maximum likelihood where failures suffice, else Firth's penalised likelihood with its intercept
 * refitted, so that the predicted failures sum to the observed (Puhr et al., Statistics in Medicine
 * 2017;36:2302: the penalty alone draws every risk towards one half). Null where a column can be told
 * from the others.
 */
function fitOthers(
  outcome: readonly boolean[],
  covariates: readonly (readonly number[])[],
  rarer: number,
): FittedRisk | null {
  const plain = logisticRegression({ outcome, covariates });
  if (plain.aliased.length > 0) return null;
  const isSteady = plain.infinite.length === 0 && plain.converged;
  if (isSteady && rarer >= enoughPerColumn * covariates.length) {
    const [intercept = 0, ...slopes] = plain.coefficients.map(({ estimate }) => estimate);
    return { intercept, slopes, isPenalised: false };
  }
  const slopes = [...logisticFirthEstimates({ outcome, covariates }).estimates].slice(1);
  const offset = outcome.map((_, row) =>
    sumOf(
      slopes,
      covariates.map((column) => column[row] ?? 0),
    ),
  );
  const [refitted] = logisticRegression({ outcome, covariates: [], offset }).coefficients;
  return { intercept: refitted?.estimate ?? 0, slopes, isPenalised: true };
}

/** Never quite 0 or 1: no model of eyes is as sure as that. */
function riskOf({ intercept, slopes }: FittedRisk, values: readonly number[]): number {
  const risk = 1 / (1 + Math.exp(-intercept - sumOf(slopes, values)));
  return Math.min(1 - surest, Math.max(surest, risk));
}

const surest = 1e-9;

function sumOf(slopes: readonly number[], values: readonly number[]): number {
  return slopes.reduce((sum, slope, column) => sum + slope * (values[column] ?? 0), 0);
}

function reasons(all: readonly (readonly [string, readonly number[]])[]): ExpectedRisks["silent"] {
  return all.filter(([, eyes]) => eyes.length > 0).map(([reason, eyes]) => ({ reason, eyes }));
}
