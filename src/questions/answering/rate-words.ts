import { type GroupRate, headlineOf } from "../failure-rate/rate-of-group.ts";
import { percent, percentRange } from "./wording.ts";

/**
 * The rate that a group leads with, in words, with its interval and the interval's method: "by the
 * curve 13.3% (95% log-log interval 10.7 to 16.5%)", "13.6% (95% Wilson interval 10.7 to 17.1%)".
 */
export function rateWords(rate: GroupRate): string {
  const headline = headlineOf(rate);
  if (headline === null) return "the rate cannot be estimated";
  const { estimate, method } = headline;
  const how = rate.curve === null || rate.notKnown === 0 ? "" : "by the curve ";
  return `${how}${percent(estimate)} (95% ${method} interval ${percentRange(headline)})`;
}

/** How the rates of a column are made, for its heading: "failed by 12 months (95%)". */
export function rateHeading(window: { readonly text: string } | undefined): string {
  return window === undefined ? "failed of known (95% Wilson)" : `failed by ${window.text} (95%)`;
}
