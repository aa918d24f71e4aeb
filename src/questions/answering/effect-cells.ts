import { pointsText, ratioText } from "../../charts/effect-intervals.ts";
import type { AnswerCell, FigureRecord } from "../answer.ts";
import { noEstimate } from "./estimate-cell.ts";
import { pValue } from "./wording.ts";

/** An estimate with its limits; a ratio may reach 0 or Infinity. */
export interface Effect {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

/** "−1.7 (−8.1 – 4.2)": a difference of shares in percentage points. */
export function differenceCell(effect: Effect | null): AnswerCell {
  return effectCell(effect, pointsText);
}

/** "0.70 (0.41 – 1.20)". */
export function ratioCell(effect: Effect | null): AnswerCell {
  return effectCell(effect, ratioText);
}

function effectCell(effect: Effect | null, text: (value: number) => string): AnswerCell {
  if (effect === null) return noEstimate;
  const { estimate, lower, upper } = effect;
  return {
    text: `${text(estimate)} (${text(lower)}\u00a0–\u00a0${text(upper)})`,
    value: estimate,
    limits: { lower, upper },
  };
}

/** "−8.1 to 4.2": the limits of a difference in percentage points. */
export function pointsRange({ lower, upper }: Effect): string {
  return `${pointsText(lower)} to ${pointsText(upper)}`;
}

/** "0.41 to 1.20". */
export function ratioRange({ lower, upper }: Effect): string {
  return `${ratioText(lower)} to ${ratioText(upper)}`;
}

/** "95% Wald interval, robust by patient, 0.41 to 1.20": a ratio's limits with their method. */
export function ratioInterval(effect: Effect & { readonly method: string }): string {
  const [name, how] = effect.method.split(", ");
  const range = ratioRange(effect);
  return how === undefined
    ? `95% ${name} interval ${range}`
    : `95% ${name} interval, ${how}, ${range}`;
}

/** "95% Wald intervals, robust by patient": of a method that `number` estimates share. */
export function intervalsName(method: string, number: number): string {
  const [name, how] = method.split(", ");
  const noun = number === 1 ? "interval" : "intervals";
  return how === undefined ? `95% ${name} ${noun}` : `95% ${name} ${noun}, ${how}`;
}

/** "0.0018", "<0.0001": a p-value under a heading that says so. */
export function pCell(p: number | null): AnswerCell {
  return p === null ? noEstimate : { text: pValue(p).replace(/^p (= )?/, ""), value: p };
}

/** An effect by name: `difference`, `difference_lower`, `difference_upper`; no end reads null. */
export function effectFigures(name: string, effect: Effect | null): FigureRecord {
  return {
    [name]: finite(effect?.estimate),
    [`${name}_lower`]: finite(effect?.lower),
    [`${name}_upper`]: finite(effect?.upper),
  };
}

function finite(value: number | undefined): number | null {
  return value !== undefined && Number.isFinite(value) ? value : null;
}
