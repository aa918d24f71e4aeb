import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Problem } from "../../problem/problem.ts";
import { numberGiven, textGiven } from "../question.ts";
import type { Resampling } from "./resampled-intervals.ts";

export type Model = "logistic" | "Cox";

export const models = ["by what is known", "logistic", "Cox"] as const;
export const intervals = ["delta", "bootstrap"] as const;
export const usualSeed = 1;
export const usualReplicates = 1000;

/** Cox's model where there is a window at which some outcomes are not known. */
export function modelFor(
  given: GivenArguments,
  about: { readonly unknown: number; readonly window?: TimeWindow },
): Model {
  const asked: (typeof models)[number] = textGiven(given, "model", models[0]);
  if (asked !== "by what is known") return asked;
  return about.unknown > 0 && about.window !== undefined ? "Cox" : "logistic";
}

/** What Cox's model cannot do: limits by the delta method, and a rate at no time. */
export function coxRefusals(given: GivenArguments, window: TimeWindow | undefined): Problem[] {
  const interval = given.values.get("interval");
  const isDelta = interval?.value.kind === "text" && interval.value.text === "delta";
  const problems: Problem[] = [];
  if (isDelta) {
    problems.push({
      code: "no-delta-for-cox",
      severity: "stop",
      place: { span: interval.span },
      message: "the rates of Cox's model have no delta-method limits",
      found: "delta",
      expected: 'interval: "bootstrap", or model: "logistic"',
    });
  }
  if (window === undefined) {
    problems.push({
      code: "cox-without-window",
      severity: "stop",
      place: { span: given.values.get("model")?.span ?? given.span },
      message: "Cox's model gives a rate at a time, and no window is given",
      expected: "a window, such as within: 12 months",
    });
  }
  return problems;
}

/** Undefined for the delta method. */
export function resamplingGiven(given: GivenArguments, model: Model): Resampling | undefined {
  const interval = textGiven(given, "interval", model === "Cox" ? "bootstrap" : "delta");
  if (interval !== "bootstrap") return undefined;
  return {
    seed: numberGiven(given, "seed") ?? usualSeed,
    replicates: numberGiven(given, "replicates") ?? usualReplicates,
  };
}

/** A seed or a number of resamples out of range. */
export function wrongResampling(given: GivenArguments): Problem[] {
  return [
    { name: "seed", least: 0, most: 2 ** 32 - 1 },
    { name: "replicates", least: 200, most: 20_000 },
  ].flatMap(({ name, least, most }) => {
    const value = numberGiven(given, name);
    if (value === undefined) return [];
    if (Number.isInteger(value) && value >= least && value <= most) return [];
    return [
      {
        code: "resampling-out-of-range",
        severity: "stop" as const,
        place: { span: given.values.get(name)?.span ?? given.span },
        message: `${name} is ${value}`,
        found: String(value),
        expected: `a whole number from ${least} to ${most}`,
      },
    ];
  });
}
