import { columnNamed, type Table } from "../../cases/table.ts";
import type { RowExpression } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { tableProblem } from "../tables/table-problem.ts";
import type { KnownValue } from "./value-order.ts";

/** What all rows of a group hold; null where it is missing. */
interface GroupOfValue {
  readonly value: KnownValue | null;
  readonly rows: readonly number[];
}

/** Longer, or of more words, a value is told in sentences and no name of a group. */
const mostSigns = 40;
const mostWords = 5;

/**
 * What is wrong where groups would be called by what stands in a column of free text. What somebody
 * wrote about a patient must not reach a report by way of a label; labels that stand in the working,
 * given by a condition on such a text, are as good as any.
 */
export function groupedByText(
  table: Table,
  { text, span }: Pick<RowExpression, "text" | "span">,
  {
    names,
    groups,
  }: { readonly names: readonly string[]; readonly groups: readonly GroupOfValue[] },
): Problem | undefined {
  const name = names.find((each) => {
    const column = columnNamed(table, each);
    if (column?.kind !== "text" || !column.values.some(isSentence)) return false;
    return groups
      .filter(({ value }) => !text.includes(`"${value}"`))
      .some(({ value, rows }) => rows.some((row) => isSame(column.values[row], value)));
  });
  if (name === undefined) return undefined;
  return tableProblem("grouped-by-free-text", span, {
    message: `${name} is free text, and what is written there would be the names of groups.`,
    found: text,
    expected: "a column of codes, or groups made from the text by a condition",
    remedy: `make groups, such as if contains(${name}, "tear") then "tear" else "other"`,
  });
}

function isSentence(value: unknown): boolean {
  if (typeof value !== "string") return false;
  return value.length > mostSigns || value.split(/\s+/).length > mostWords;
}

/** The same text, apart from space around it and from capitals. */
function isSame(written: unknown, label: unknown): boolean {
  const isText = typeof written === "string" && typeof label === "string";
  return isText && written.trim().toLowerCase() === label.trim().toLowerCase();
}
