/** Numbers and counts as they are read out. Nothing is rounded before it comes here. */

/** "13.6%", "0.0%", "<0.1%" for a share that is not 0 but would round to it; a dash for none. */
export function percent(share: number | null): string {
  if (share === null) return "–";
  if (share > 0 && share < 0.0005) return "<0.1%";
  if (share < 1 && share > 0.9995) return ">99.9%";
  return `${(100 * share).toFixed(1)}%`;
}

/** "10.7 to 17.1%": limits of a share. */
export function percentRange(limits: { readonly lower: number; readonly upper: number }): string {
  return `${(100 * limits.lower).toFixed(1)} to ${(100 * limits.upper).toFixed(1)}%`;
}

/** "1,234". */
export function count(number: number): string {
  return number.toString().replace(/\B(?=(\d{3})+$)/g, ",");
}

/** "no eyes", "1 eye", "442 eyes". */
export function counted(number: number, one: string, many = `${one}s`): string {
  if (number === 0) return `no ${many}`;
  return `${count(number)} ${number === 1 ? one : many}`;
}

/** "p = 0.0017", "p < 0.0001". */
export function pValue(p: number): string {
  if (p < 0.0001) return "p < 0.0001";
  return `p = ${p < 0.001 ? p.toFixed(4) : p.toPrecision(2)}`;
}

/** "a", "a and b", "a, b and c". */
export function listed(items: readonly string[]): string {
  if (items.length <= 1) return items[0] ?? "";
  return `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}

/** A group within a sentence: "vitrectomy", "group 4" where its name would read as a number. */
export function groupName(label: string): string {
  return /^\d/.test(label) ? `group ${label}` : label;
}

/** The first letter in upper case, for the start of a sentence. */
export function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A number of a reader's own: whole ones in full, others to six significant digits, no zeros added. */
export function plainNumber(value: number): string {
  if (!Number.isFinite(value)) return "not a number";
  return String(Number.isInteger(value) ? value : Number(value.toPrecision(6)));
}

/** A number as shown: whole numbers whole, others to `digits` after the point; a dash for none. */
export function figure(value: number | null, digits = 1): string {
  if (value === null) return "–";
  return Number.isInteger(value) ? count(value) : value.toFixed(digits);
}
