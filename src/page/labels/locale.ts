/** The language that the labels are written in; a translation brings its own. */
export const locale = "en-GB";

const whole = new Intl.NumberFormat(locale, { maximumFractionDigits: 0 });

/** A count as it is written in that language: "12,345". Days are written as in ISO 8601. */
export function countText(count: number): string {
  return whole.format(count);
}
