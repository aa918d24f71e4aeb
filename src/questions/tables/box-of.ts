import type { TableMark } from "../../charts/table-drawing.ts";
import { sampleQuantile } from "../../statistics/sample-quantile.ts";
import type { PickBook } from "../answering/answered-eyes.ts";

/**
 * Median, quartiles, and whiskers to the last value within one and a half times the distance of
 * the quartiles from them; what lies beyond leads to its row. J. W. Tukey, Exploratory Data
 * Analysis, Addison-Wesley 1977, with quartiles by definition 7 of Hyndman and Fan.
 */
export function boxOf(
  rows: readonly number[],
  at: (row: number) => number,
  picks: PickBook,
): Pick<TableMark, "up" | "spread"> {
  const ordered = rows.map(at).sort((one, other) => one - other);
  const [lower, middle, upper] = [0.25, 0.5, 0.75].map((share) => sampleQuantile(ordered, share));
  if (lower == null || middle == null || upper == null) return { up: null };
  const reach = 1.5 * (upper - lower);
  const isWithin = (value: number) => value >= lower - reach && value <= upper + reach;
  const within = ordered.filter(isWithin);
  return {
    up: middle,
    spread: {
      lower,
      upper,
      least: within[0] ?? lower,
      most: within.at(-1) ?? upper,
      beyond: rows
        .filter((row) => !isWithin(at(row)))
        .map((row) => {
          const pick = picks.add(`p${row}`, "beyond the whiskers", [row]);
          return { up: at(row), ...(pick === undefined ? {} : { pick }) };
        }),
    },
  };
}
