import { columnNamed } from "../../../cases/table.ts";
import type { Problem } from "../../../problem/problem.ts";
import { type ExactTest, fisherExact } from "../../../statistics/fisher-exact.ts";
import {
  type ComparisonEstimate,
  newcombeDifference,
} from "../../../statistics/newcombe-difference.ts";
import { type ExactRatio, exactRatio } from "../../people/exact-ratio.ts";
import type { Expectation } from "../../people/expectation.ts";
import type { ExpectedModel } from "../../people/expected-model-cautions.ts";
import { expectedRisks } from "../../people/expected-risks.ts";
import { among, type JudgedEyes } from "../../people/judged-eyes.ts";

/** The eyes before a day, and from it on. */
export interface TwoSides {
  readonly before: JudgedEyes;
  readonly after: JudgedEyes;
  readonly undated: readonly number[];
}

/** The two sides by day of operation; undefined where the file has no days. */
export function twoSides(judged: JudgedEyes, day: number): TwoSides | undefined {
  const days = columnNamed(judged.record.table, "operation_date")?.values;
  if (days === undefined) return undefined;
  const all = days.map((_, eye) => eye);
  const dayOf = (eye: number): number | null => {
    const value = days[eye];
    return typeof value === "number" ? value : null;
  };
  const on = (side: (value: number) => boolean) =>
    all.filter((eye) => {
      const value = dayOf(eye);
      return value !== null && side(value);
    });
  return {
    before: among(
      judged,
      on((value) => value < day),
    ),
    after: among(
      judged,
      on((value) => value >= day),
    ),
    undated: all.filter((eye) => dayOf(eye) === null),
  };
}

/** After less before, among known eyes. */
export interface SidesCompared {
  readonly difference: ComparisonEstimate | null;
  readonly exact: ExactTest | null;
}

export function compareSides({ before, after }: TwoSides): SidesCompared {
  const part = ({ known, hasFailed }: JudgedEyes) => ({
    failed: known.filter(hasFailed).length,
    total: known.length,
  });
  const table = { first: part(after), second: part(before) };
  const isEmpty = table.first.total === 0 || table.second.total === 0;
  return {
    difference: newcombeDifference(table),
    exact: isEmpty ? null : fisherExact(table),
  };
}

/** Failures after the day beside those expected of the same eyes by a model of the eyes before. */
export interface ExpectedAfter {
  readonly observed: number;
  readonly eyes: readonly number[];
  readonly ratio: ExactRatio | null;
  readonly model: ExpectedModel | null;
  readonly cannot: string | undefined;
}

export function expectedAfter(
  { before, after }: TwoSides,
  expectation: Expectation & { readonly kind: "model" },
): { readonly expected: ExpectedAfter } | { readonly problems: readonly Problem[] } {
  const both = { ...before, known: [...before.known, ...after.known] };
  const told = expectedRisks(both, expectation);
  if ("problems" in told) return told;
  const risks = told.risksOf(after.known);
  if ("cannot" in risks) {
    return {
      expected: {
        observed: 0,
        eyes: [],
        ratio: null,
        model: null,
        cannot: risks.cannot.replaceAll("of others", "before"),
      },
    };
  }
  const observed = risks.eyes.filter(after.hasFailed).length;
  const ratio = exactRatio(observed, risks.risks);
  const { eyes, model } = risks;
  return { expected: { observed, eyes, ratio, model, cannot: undefined } };
}
