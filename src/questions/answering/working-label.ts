import { columnNamed, type Table } from "../../cases/table.ts";

/** How the words that are used most read in a heading; "…" is what they are given first. */
const phrases = new Map([
  ["median", "median …"],
  ["mean", "mean …"],
  ["sum", "sum of …"],
  ["min", "least …"],
  ["max", "greatest …"],
  ["standard_deviation", "standard deviation of …"],
  ["lower_quartile", "lower quartile of …"],
  ["upper_quartile", "upper quartile of …"],
  ["share", "share: …"],
  ["count_where", "number: …"],
  ["count_different", "different values of …"],
  ["count_known", "… recorded"],
  ["count_missing", "… missing"],
  ["band", "… in bands"],
  ["group_values", "… in groups"],
  ["year", "year of …"],
  ["quarter", "quarter of …"],
  ["month", "month of …"],
  ["weekday", "weekday of …"],
  ["first_of_month", "month of …"],
  ["first_of_year", "year of …"],
]);

/**
 * A working as a heading: "median age" for `median(age)`, "age in bands" for `band(age, [40])`.
 * Others stand as they are written, on one line.
 */
export function workingLabel(table: Table, text: string): string {
  const line = text.replace(/\s+/g, " ").replaceAll("( ", "(").replaceAll(" )", ")");
  const column = columnNamed(table, line);
  if (column !== undefined) return column.label;
  const call = /^(\w+)\((.*)\)$/.exec(line);
  const [first, rest] = firstArgument(call?.[2] ?? "");
  const phrase = phrases.get(call?.[1] ?? "");
  if (phrase === undefined || first === undefined) return line;
  if (rest !== phrase.startsWith("… in ")) return line;
  return phrase.replace("…", () => columnNamed(table, first)?.label ?? first);
}

/** The first argument, and whether more follow; undefined where the bracket closes too early. */
function firstArgument(inside: string): readonly [string | undefined, boolean] {
  let depth = 0;
  let end = inside.length;
  let isQuoted = false;
  for (let i = 0; i < inside.length; i++) {
    const sign = inside[i] ?? "";
    if (sign === "\\") i++;
    else if (sign === '"') isQuoted = !isQuoted;
    else if (isQuoted) continue;
    else if ("([".includes(sign)) depth++;
    else if (")]".includes(sign) && --depth < 0) return [undefined, false];
    else if (sign === "," && depth === 0) end = Math.min(end, i);
  }
  return [inside.slice(0, end).trim(), end < inside.length];
}
