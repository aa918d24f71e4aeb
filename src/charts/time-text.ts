export type TimeUnit = "days" | "months" | "years";

const daysIn = { days: 1, months: 365.25 / 12, years: 365.25 } as const;
const short = { days: "d", months: "mo", years: "yr" } as const;

/**
 * A day after the operation in the unit of an axis: day 91 is "3 mo", since 3 months of
 * 365.25 / 12 days round to it; day 100, no whole number of months, is "3.3 mo".
 */
export function timeText(day: number, unit: TimeUnit): string {
  const amount = day / daysIn[unit];
  const whole = Math.round(amount);
  const isWhole = Math.round(whole * daysIn[unit]) === Math.round(day);
  return `${isWhole ? whole : amount.toFixed(1)} ${short[unit]}`;
}
