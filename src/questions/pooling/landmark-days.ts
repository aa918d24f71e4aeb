import { wholeDays } from "../../formula/value.ts";

const months = [1, 3, 6, 12, 24, 60];

/** The usual days to read a curve on, up to the window's end, which is always among them. */
export function landmarkDays(days: number): number[] {
  const usual = months.map((amount) => wholeDays(amount, "month")).filter((day) => day < days);
  return [...usual, days];
}

/** "6 months", or "day 200". */
export function landmarkText(day: number): string {
  const month = months.find((amount) => wholeDays(amount, "month") === day);
  if (month === undefined) return `day ${day}`;
  return month === 1 ? "1 month" : `${month} months`;
}
