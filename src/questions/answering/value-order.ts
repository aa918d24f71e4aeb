/** What stands in a row and is known. */
export type KnownValue = number | boolean | string | readonly string[];

const collator = new Intl.Collator("en", { numeric: true });

/**
 * Compares values of one column: codes by the order of their list (what is not in it after them),
 * numbers and days by size, yes before no, texts by alphabet with the numbers in them by size
 * (S2 before S10).
 */
export function inOrder(order: readonly string[] = []) {
  const places = new Map(order.map((code, place) => [code, place]));
  return (one: KnownValue, other: KnownValue): number => {
    if (typeof one === "number" && typeof other === "number") return one - other;
    if (typeof one === "boolean" && typeof other === "boolean") return Number(other) - Number(one);
    const [first, second] = [textOf(one), textOf(other)];
    const place = (text: string) => places.get(text) ?? places.size;
    return place(first) - place(second) || compareTexts(first, second);
  };
}

/** Several codes as one text. */
export function textOf(value: KnownValue): string {
  if (typeof value !== "object") return String(value);
  return value.length === 0 ? "none" : [...value].sort(compareTexts).join(" and ");
}

/** Equal only where the texts are the same, so that the order is always the same. */
function compareTexts(one: string, other: string): number {
  return collator.compare(one, other) || (one < other ? -1 : one > other ? 1 : 0);
}
