import type { Kind } from "../kinds.ts";
import type { RowValue, Word } from "../vocabulary.ts";
import { asFirst, asItems, required } from "./parameters.ts";
import { type PlainWord, plainWord } from "./plain-word.ts";

/**
 * Words over lists. A list with a missing item has a missing sum, median and so on, so that
 * nothing is left out quietly: `known(list)` leaves the missing ones out, `count_missing` counts
 * them. In a summary the rows of a group are the list, the missing ones are left out, and their
 * number stands beside the outcome. Lengths of time come out to the nearest whole day.
 */
export const listWords: readonly Word[] = [
  overNumbers("sum", "the sum of a list, 0 for an empty one", sum),
  overNumbers("mean", "the mean of a list, missing for an empty one", mean),
  overNumbers("median", "the median of a list, the mean of the two in the middle", (items) =>
    quantile(items, 0.5),
  ),
  {
    ...overNumbers("quantile", "the value below which a share of a list lies", mean),
    parameters: [
      required("list", ["list"], "a list of numbers or of lengths of time"),
      required("share", ["number"], "the share, 0 to 1, as in 25%"),
    ],
    apply: (items: readonly RowValue[], share: number) =>
      share < 0 || share > 1
        ? Number.NaN
        : ifKnown<number>(items, (known) => quantile(known, share)),
  },
  overNumbers("standard_deviation", "the standard deviation of a list (n - 1)", deviation),
  severalOf("min", "the least of several values or of a list", (items) => extreme(items, -1)),
  severalOf("max", "the greatest of several values or of a list", (items) => extreme(items, 1)),
  {
    ...severalOf("first_known", "the first of several values that is not missing", () => null),
    items: ["number", "duration", "day", "text", "truth"] as const,
    apply: (items: readonly RowValue[]) => items.find((item) => item !== null) ?? null,
  },
  {
    name: "length",
    meaning: "how many items a list has, or characters a text",
    parameters: [required("of", ["list", "text"], "the list or the text")],
    answers: "number" as const,
    overRows: "all" as const,
    apply: (of: string | readonly RowValue[]) => (typeof of === "string" ? [...of] : of).length,
  },
  counting("count_known", "how many items of a list are not missing", (item) => item !== null),
  counting("count_missing", "how many items of a list are missing", (item) => item === null),
  {
    name: "known",
    meaning: "a list without its missing items",
    parameters: [required("list", ["list"], "the list")],
    answers: { shown: "list", of: ([list]) => ({ kind: "list", item: list?.item }) },
    apply: (items: readonly RowValue[]) => items.filter((item) => item !== null),
  } satisfies PlainWord,
  {
    name: "share",
    meaning: "the share of a list that is true, 0 to 1",
    parameters: [required("list", ["list"], "a list of true and false")],
    answers: "number" as const,
    items: ["truth"] as const,
    overRows: "known" as const,
    apply: (items: readonly RowValue[]) =>
      ifKnown(items, (known) => known.filter((item) => item === true).length / known.length),
  },
  {
    name: "item",
    meaning: "the item at a place of a list, counted from 1; missing where there is none",
    parameters: [
      required("list", ["list"], "the list"),
      required("place", ["number"], "1 for the first"),
    ],
    answers: asFirst,
    apply: (items: readonly RowValue[], place: number) => items[place - 1] ?? null,
  },
].map((plan) => plainWord(plan as PlainWord));

function overNumbers(
  name: string,
  meaning: string,
  apply: (items: readonly number[]) => number | null,
): PlainWord {
  return {
    name,
    meaning,
    parameters: [required("list", ["list"], "a list of numbers or of lengths of time")],
    answers: asItems,
    items: ["number", "duration"],
    overRows: "known",
    apply: (items: readonly RowValue[]) => ifKnown(items, apply),
  };
}

function severalOf(
  name: string,
  meaning: string,
  apply: (items: readonly number[]) => number | null,
): PlainWord {
  const kinds: readonly Kind[] = ["number", "duration", "day", "text", "truth", "list"];
  return {
    name,
    meaning,
    parameters: [{ ...required("of", kinds, "the values, or a list of them"), repeated: true }],
    answers: asFirst,
    items: ["number", "duration", "day"],
    overRows: "known",
    apply: (items: readonly RowValue[]) => ifKnown(items, apply),
  };
}

function counting(
  name: string,
  meaning: string,
  isCounted: (item: RowValue) => boolean,
): PlainWord {
  return {
    name,
    meaning,
    parameters: [required("list", ["list"], "the list")],
    answers: "number",
    overRows: "all",
    apply: (items: readonly RowValue[]) => items.filter(isCounted).length,
  };
}

/** Missing where an item is missing, or where an empty list has no answer. */
function ifKnown<Item extends RowValue>(
  items: readonly RowValue[],
  apply: (items: readonly Item[]) => number | null,
): number | null {
  if (items.includes(null)) return null;
  const outcome = apply(items as readonly Item[]);
  return items.length === 0 && Number.isNaN(outcome) ? null : outcome;
}

/**
 * The sum with the lost low digits carried along, so that order does not matter much
 * (A. Neumaier, Zeitschrift für Angewandte Mathematik und Mechanik 1974;54:39-51).
 */
function sum(items: readonly number[]): number {
  let total = 0;
  let lost = 0;
  for (const item of items) {
    const next = total + item;
    lost += Math.abs(total) >= Math.abs(item) ? total - next + item : item - next + total;
    total = next;
  }
  return total + lost;
}

function mean(items: readonly number[]): number {
  return sum(items) / items.length;
}

/** Missing for fewer than two items. */
function deviation(items: readonly number[]): number | null {
  if (items.length < 2) return null;
  const centre = mean(items);
  return Math.sqrt(sum(items.map((item) => (item - centre) ** 2)) / (items.length - 1));
}

/**
 * Between the two nearest items by straight line, at 1 + (n - 1) share in the ordered list:
 * definition 7 of R. J. Hyndman and Y. Fan, The American Statistician 1996;50:361-365.
 */
function quantile(items: readonly number[], share: number): number {
  const ordered = [...items].sort((one, other) => one - other);
  const place = (ordered.length - 1) * share;
  const below = ordered[Math.floor(place)] ?? Number.NaN;
  const above = ordered[Math.ceil(place)] ?? Number.NaN;
  return below + (above - below) * (place - Math.floor(place));
}

function extreme(items: readonly number[], sign: 1 | -1): number {
  return items.reduce(
    (best, item) => ((item - best) * sign > 0 ? item : best),
    items[0] ?? Number.NaN,
  );
}
