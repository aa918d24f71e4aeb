import type { Value } from "./value.ts";
import type { RowKind, RowValue } from "./vocabulary.ts";

/** The kinds of value that the language itself can reckon with. */
export type Kind = RowKind;

/** Every kind but that of things. */
export const plainKinds: ReadonlySet<string> = new Set([
  "number",
  "truth",
  "text",
  "day",
  "duration",
  "list",
  "missing",
]);

/** The kind of a value; for a thing, what it is `of`. */
export function kindOfValue(value: Value): string {
  return value.kind === "thing" ? value.of : value.kind;
}

/** A kind in a sentence: "a number", "a length of time"; a thing by its name in code quotes. */
export function kindInWords(kind: string): string {
  return wordsOfKinds.get(kind) ?? `\`${kind}\``;
}

/** Several kinds in a sentence: "a number, a day or a text". Missing goes without saying. */
export function kindsInWords(kinds: readonly string[]): string {
  const words = kinds.filter((kind) => kind !== "missing").map(kindInWords);
  if (words.length <= 1) return words[0] ?? "any value";
  return `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
}

const wordsOfKinds = new Map([
  ["number", "a number"],
  ["truth", "true or false"],
  ["text", "a text"],
  ["day", "a day"],
  ["duration", "a length of time"],
  ["list", "a list"],
  ["missing", "missing"],
]);

/** An example of each kind, as a working writes it. */
export const exampleOfKind: ReadonlyMap<string, string> = new Map([
  ["number", "12.5"],
  ["truth", "true"],
  ["text", '"vitrectomy"'],
  ["day", "2025-03-31"],
  ["duration", "90 days"],
  ["list", "[1, 2, 3]"],
]);

/** A value as it stands in a row: lengths of time as whole days, missing as null. */
export function rowValueOf(value: Exclude<Value, { kind: "thing" }>): RowValue {
  switch (value.kind) {
    case "missing":
      return null;
    case "number":
      return value.number;
    case "truth":
      return value.truth;
    case "text":
      return value.text;
    case "day":
      return value.day;
    case "duration":
      return value.days;
    case "list":
      return value.items.map((item) => (item.kind === "thing" ? null : rowValueOf(item)));
  }
}

/** What stands in a row as a value again. `item` is the kind of a list's items. */
export function valueOfRow(held: RowValue, kind: Kind, item: Kind = "missing"): Value {
  if (held === null || kind === "missing") return { kind: "missing" };
  if (typeof held === "boolean") return { kind: "truth", truth: held };
  if (typeof held === "string") return { kind: "text", text: held };
  if (typeof held === "object") {
    return { kind: "list", items: held.map((each) => valueOfRow(each, item)) };
  }
  if (kind === "day") return { kind: "day", day: held };
  if (kind !== "duration") return { kind: "number", number: held };
  return { kind: "duration", amount: held, unit: "day", days: held };
}
