import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { type GroupRate, headlineOf, isByCurve } from "../failure-rate/rate-of-group.ts";
import { shareMethod } from "./share-interval.ts";
import { percent, percentRange } from "./wording.ts";

/**
 * The rate that a group leads with, in words, with its interval and the interval's method: "by the
 * curve 13.3% (95% log-log interval 10.7 to 16.5%)", "13.6% (95% Wilson interval 10.7 to 17.1%)".
 * That the curve is Kaplan and Meier's is said by "the curve".
 */
export function rateWords(rate: GroupRate): string {
  const headline = headlineOf(rate);
  if (headline === null) return "the rate cannot be estimated";
  const byCurve = isByCurve(rate);
  return `${byCurve ? "by the curve " : ""}${percent(headline.estimate)} (${intervalWords(headline)})`;
}

/** "95% log-log interval 10.7 to 16.5%", where it is said already that it is of the curve. */
export function intervalWords(interval: {
  readonly method: string;
  readonly lower: number;
  readonly upper: number;
}): string {
  return `95% ${interval.method.replace(/^Kaplan–Meier /, "")} interval ${percentRange(interval)}`;
}

/**
 * How the rates of a column are made, for its heading: "failed by 12 months, by the curve (95%)", without a
 * window "failed of known (95% patient-clustered Wilson)".
 */
export function rateHeading(record: EyeRecord): string {
  if (record.window !== undefined) return `failed by ${record.window.text}, by the curve (95%)`;
  const all = Array.from(record.time, (_, eye) => eye);
  return `failed of known (95% ${shareMethod(record, all)})`;
}
