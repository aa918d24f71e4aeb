/** The language that the labels are written in; a translation brings its own. */
export const locale = "en-GB";

const whole = new Intl.NumberFormat(locale, { maximumFractionDigits: 0 });

const tenths = new Intl.NumberFormat(locale, { maximumFractionDigits: 1 });

/** A number with at most one decimal as it is written in that language: "99.8". */
export function numberText(number: number): string {
  return tenths.format(number);
}

/** A count as it is written in that language: "12,345". Days are written as in ISO 8601. */
export function countText(count: number): string {
  return whole.format(count);
}
