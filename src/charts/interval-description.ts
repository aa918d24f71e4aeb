import { percentText } from "./percent-text.ts";
import { plainText } from "./plain-text.ts";
import type { RateInterval, RateIntervals } from "./rate-intervals.ts";

/** The rates in words, one sentence a group, then the standard. */
export function describeIntervals(intervals: RateIntervals): string {
  const { rows, reference, splitBy } = intervals;
  const sentences = rows.map((row) => describeRow(row, intervals));
  if (splitBy !== undefined) sentences.unshift(`By ${plainText(splitBy)}.`);
  if (reference) {
    sentences.push(`Line at ${percentText(reference.rate, 1)}: ${plainText(reference.label)}.`);
  }
  return sentences.join(" ");
}

function describeRow(
  row: RateInterval,
  { counted, rateOf, how, level = 0.95 }: RateIntervals,
): string {
  const name = plainText(row.label);
  if (row.rate === null) return `${name}: no eyes.`;
  const rate = rateOf === undefined ? "" : ` ${plainText(rateOf)}`;
  const start = `${name}: ${row.events} of ${row.total} ${plainText(counted)}, ${how === undefined ? "" : `${how} `}${percentText(row.rate, 1)}${rate}`;
  if (row.lower === null || row.upper === null) return `${start}.`;
  const limits = `${percentText(row.lower, 1)} to ${percentText(row.upper, 1)}`;
  return `${start} (${Number((level * 100).toFixed(1))}% interval ${limits}).`;
}
