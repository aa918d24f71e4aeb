import type { Value } from "../formula/value.ts";
import type { Answered } from "../questions/answer.ts";
import type { CellState } from "./cell-state.ts";

/** Whether what a meeting was told of a cell still holds. */
export type MinutedCheck =
  | { readonly verdict: "holds" }
  | Moved
  /** The cell has no number now, or what was told holds none that could be compared. */
  | { readonly verdict: "cannot be checked"; readonly why: string };

export interface Moved {
  readonly verdict: "moved";
  readonly was: string;
  /** What would be told today, in the form of what was told. */
  readonly now: string;
}

/**
 * Compares what was minuted with the cell as it stands. Every count ("60 of 442") and every
 * percentage ("13.6%", to as many places as were told) in the text is compared with the answer's
 * headline, the percentage with the rate that its sentence leads with; where the cell is a plain number, every number is;
 * a headline of another form ("not met") is compared as a whole.
 */
export function checkMinuted(told: string, state: CellState): MinutedCheck {
  if (state.status !== "current") return { verdict: "cannot be checked", why: "it has no value" };
  const figures = figuresOf(state.value);
  if (figures === null) {
    return { verdict: "cannot be checked", why: "it has no number that is minuted" };
  }
  if (squeezed(told) === squeezed(figures.text)) return { verdict: "holds" };
  const { checked, now } = retold(told, figures);
  if (checked === 0 && figures.isWhole) return { verdict: "moved", was: told, now: figures.text };
  if (checked === 0) return { verdict: "cannot be checked", why: "no number was minuted" };
  if (squeezed(now) === squeezed(told)) return { verdict: "holds" };
  return { verdict: "moved", was: told, now };
}

interface Figures {
  /** As it would be minuted now. */
  readonly text: string;
  /** The text is minuted and compared as a whole: "not met", "27 of 140 v 13 of 163". */
  readonly isWhole: boolean;
  readonly count: number | null;
  readonly total: number | null;
  /** The fraction that percentages tell, or the plain number; null where there is none. */
  readonly number: number | null;
}

function figuresOf(value: Value): Figures | null {
  if (value.kind === "number") {
    const { number } = value;
    return { text: String(number), isWhole: false, count: null, total: null, number };
  }
  if (value.kind !== "thing" || value.of !== "answer") return null;
  const { headline, headline_rate: rate } = (value.content as Answered).answer.figures;
  if (typeof headline !== "string") return null;
  const match = /^(\d+) of (\d+)$/.exec(headline);
  const told = typeof rate === "number" ? rate : null;
  if (match === null)
    return { text: headline, isWhole: true, count: null, total: null, number: told };
  const [count, total] = [Number(match[1]), Number(match[2])];
  return { text: headline, isWhole: false, count, total, number: told ?? count / total };
}

const numbersTold = /(\d+)(\s+of\s+)(\d+)|(-?\d+)(?:\.(\d+))?(\s*%)?/g;

/** The text as it would be told now, and how many of its numbers could be compared. */
function retold(
  told: string,
  { count, total, number, isWhole }: Figures,
): { readonly now: string; readonly checked: number } {
  let checked = 0;
  const isPart = count !== null || isWhole;
  const now = told.replace(numbersTold, (written, failed, of, _all, _whole, places, percent) => {
    if (failed !== undefined && count === null) return written;
    if (failed === undefined && (number === null || (percent === undefined && isPart)))
      return written;
    checked += 1;
    if (failed !== undefined) return `${count}${of}${total}`;
    const scaled = (number ?? Number.NaN) * (percent === undefined ? 1 : 100);
    return `${rounded(scaled, places?.length ?? 0)}${percent ?? ""}`;
  });
  return { now, checked };
}

/** Half away from zero, as people round; a number that is none is told as a dash. */
function rounded(number: number, places: number): string {
  if (!Number.isFinite(number)) return "\u2013";
  const nudged = number + Math.sign(number) * Math.abs(number) * Number.EPSILON * 4;
  return nudged.toFixed(places);
}

function squeezed(text: string): string {
  return text.replace(/\s+/g, " ").trim();
}
