import { formatProblem } from "../../problem/format-problem.ts";
import type { Answered } from "../../questions/answer.ts";
import { figure } from "../../questions/answering/wording.ts";
import type { CellState } from "../../recalculation/cell-state.ts";

/** What a cell leads with; or, without numbers, why it has none. */
export interface CellHeadline {
  /** "68 of 517"; of a cell without an answer, why. */
  readonly text: string;
  /** Unrounded, a fraction of 1 of an answer and as it stands of a number; null where there is none. */
  readonly value: number | null;
  readonly isRate: boolean;
  /** Of a rate: its 95% limits, fractions of 1, and whether it is the curve's. */
  readonly interval?: { readonly lower: number; readonly upper: number; readonly byCurve: boolean };
  readonly asks?: string;
  readonly answered?: Answered;
}

/** Undefined for what has no headline: settings, sets of eyes, tables. */
export function cellHeadline(state: CellState): CellHeadline | undefined {
  if (state.status !== "current") {
    const text =
      state.status === "at fault" ? state.problems.map(formatProblem).join("; ") : "no answer";
    return { text, value: null, isRate: false };
  }
  const { value } = state;
  if (value.kind === "number") {
    return { text: figure(value.number, 2), value: value.number, isRate: false };
  }
  if (value.kind !== "thing" || value.of !== "answer") return undefined;
  const answered = value.content as Answered;
  const { headline, headline_rate } = answered.answer.figures;
  if (typeof headline !== "string") return undefined;
  return {
    text: headline,
    value: typeof headline_rate === "number" ? headline_rate : null,
    isRate: true,
    ...intervalOf(answered),
    asks: answered.answer.asks,
    answered,
  };
}

function intervalOf({ answer: { figures } }: Answered): Pick<CellHeadline, "interval"> {
  const { headline_lower: lower, headline_upper: upper, headline_interval: method } = figures;
  if (typeof lower !== "number" || typeof upper !== "number") return {};
  const byCurve = typeof method === "string" && method.startsWith("Kaplan–Meier");
  return { interval: { lower, upper, byCurve } };
}
