import { dayText } from "../../formula/calendar.ts";
import type { RowColumn, RowKind, RowValue } from "../../formula/vocabulary.ts";
import { counted, percent } from "../answering/wording.ts";
import { type KnownValue, textOf } from "./value-order.ts";

/** What stands where nothing is recorded. */
export const nothing = "–";

type TextKind = RowColumn["kind"] | RowKind | "share";

/**
 * What stands in a row as a reader would write it, exact to 15 digits: "2025-03-31", "12 days",
 * "yes", "PVR and new break". Whole numbers have no thousands separator: they may be years.
 */
export function valueText(held: RowValue, kind: TextKind): string {
  if (held === null) return nothing;
  if (typeof held === "boolean") return held ? "yes" : "no";
  if (typeof held !== "number") return textOf(held as KnownValue);
  if (kind === "day") return dayText(held);
  const text = String(Number(held.toPrecision(15)));
  return kind === "duration" ? `${text} ${held === 1 ? "day" : "days"}` : text;
}

/** A summary as shown: shares in percent, other numbers to four significant digits at least. */
export function summaryText(held: RowValue, kind: TextKind): string {
  if (typeof held !== "number") return valueText(held, kind);
  if (kind === "share") return percent(held);
  if (kind === "day") return dayText(Math.round(held));
  if (kind === "duration") return counted(held, "day").replace("no days", "0 days");
  return numberText(held);
}

/** "2024", "12,345", "61.5", "0.0123": whole numbers whole, others to four significant digits. */
export function numberText(number: number): string {
  const size = Math.abs(number);
  const whole = Number.isInteger(number) || size >= 10_000;
  const digits = size >= 1000 ? 5 : 4;
  const text = whole ? String(Math.round(number)) : String(Number(number.toPrecision(digits)));
  return whole && size >= 10_000 ? text.replace(/\B(?=(\d{3})+$)/g, ",") : text;
}
