import { dictionary } from "./dictionary.ts";
import type { Field, FieldGroup } from "./field.ts";
import type { ColumnKind } from "./table.ts";
import { describeRange } from "./values/read-numbers.ts";

/** One field in words, for documentation. Texts are empty where there is nothing to say. */
export interface FieldDescription {
  readonly group: FieldGroup;
  readonly name: string;
  /** "date", "number (0 to 115 years)", "one of: right, left" … */
  readonly holds: string;
  readonly meaning: string;
  /** Other headings it is known by. */
  readonly headings: readonly string[];
  /** Other ways of writing its codes: code, then spellings. */
  readonly spellings: readonly (readonly [string, readonly string[]])[];
}

/** Every field of the dictionary in words, in the order of reading. */
export function describeDictionary(): readonly FieldDescription[] {
  return dictionary.map((field) => ({
    group: field.group,
    name: field.name,
    holds: describeHolds(field),
    meaning: field.meaning,
    headings: field.headings,
    spellings: (field.codes ?? []).map(({ code, spellings }) => [code, spellings] as const),
  }));
}

const kinds: Readonly<Record<ColumnKind, string>> = {
  day: "date",
  number: "number",
  truth: "yes or no",
  code: "one of",
  codes: "any of",
  text: "text",
  acuity: "acuity",
};

function describeHolds(field: Field): string {
  const kind = kinds[field.kind];
  if (field.codes !== undefined)
    return `${kind}: ${field.codes.map(({ code }) => code).join(", ")}`;
  if (field.kind !== "number") return kind;
  return field.range === undefined ? kind : `${kind} (${describeRange(field.range, field.unit)})`;
}
