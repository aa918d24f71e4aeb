/**
 * A fraction as a percentage for display. What lies strictly between none and all is never shown
 * as 0% or 100%: it becomes "<1%" or ">99%" ("<0.1%", ">99.9%" with one decimal).
 */
export function percentText(fraction: number, decimals = 0): string {
  const text = (fraction * 100).toFixed(decimals);
  if (fraction > 0 && Number(text) <= 0) return `<${(10 ** -decimals).toFixed(decimals)}%`;
  if (fraction < 1 && Number(text) >= 100) return `>${(100 - 10 ** -decimals).toFixed(decimals)}%`;
  return `${text}%`;
}
