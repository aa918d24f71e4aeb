import { dictionary } from "./dictionary.ts";
import type { ColumnSpec } from "./field.ts";
import { foldSpelling } from "./fold-spelling.ts";
import { isMissing } from "./missing-value.ts";
import type { ColumnKind } from "./table.ts";
import { readDays } from "./values/read-days.ts";
import { plainNumber, showsDecimalComma } from "./values/read-numbers.ts";
import { WrittenColumn } from "./written-column.ts";

/** Words of a working, which no column can be called by. */
const words = "and or not if then else is between one of missing known true false yes no".split(
  " ",
);
const reserved: ReadonlySet<string> = new Set([...words, ...dictionary.map(({ name }) => name)]);

/** A name for a column of the department's own: lower case letters, digits, underscores; unique. */
export function ownColumnName(heading: string, taken: ReadonlySet<string>): string {
  const plain = heading
    .normalize("NFKD")
    .toLowerCase()
    .replaceAll(/\p{M}/gu, "")
    .replaceAll(/[^a-z0-9]+/g, "_")
    .replaceAll(/^_+|_+$/g, "");
  const name = /^[a-z]/.test(plain) ? plain : `column_${plain}`.replace(/_$/, "");
  let unique = name;
  for (let n = 2; taken.has(unique) || reserved.has(unique); n++) unique = `${name}_${n}`;
  return unique;
}

/**
 * What a column of the department's own holds, decided by all its values: numbers (none with a
 * leading zero, so that codes such as 0012 stay text), yes and no, days, a few codes, or text.
 */
export function ownColumnKind(written: WrittenColumn, delimiter: string): ColumnKind {
  const known = written.different.filter((value) => !isMissing(value));
  if (known.length === 0) return "text";
  const hasDecimalComma = delimiter === ";" || showsDecimalComma(known);
  if (known.every((value) => isPlainNumber(value, hasDecimalComma))) return "number";
  if (known.every(isYesOrNo)) return "truth";
  if (known.every(canBeDay) && areDays(known)) return "day";
  return isFewCodes(written, known) ? "code" : "text";
}

/** Whether a column holds yes and no and nothing else; not where it is empty. */
export function areOnlyYesAndNo(written: WrittenColumn): boolean {
  const known = written.different.filter((value) => !isMissing(value));
  return known.length > 0 && known.every(isYesOrNo);
}

const yesAndNo: ReadonlySet<string> = new Set(["y", "n", "yes", "no", "true", "false"]);

function isYesOrNo(value: string): boolean {
  return yesAndNo.has(foldSpelling(value));
}

/** A whole number of more than 15 digits is an identifier, and no double holds it. */
function isPlainNumber(value: string, hasDecimalComma: boolean): boolean {
  if (/^[+-]?(0\d|\d{16,}$)/.test(value)) return false;
  return plainNumber(value, hasDecimalComma) !== null;
}

function canBeDay(value: string): boolean {
  return value.length >= 6 && /\d/.test(value);
}

function areDays(known: readonly string[]): boolean {
  const { faults, remarks } = readDays(WrittenColumn.of(known), { heading: "", delimiter: "," });
  return faults.length === 0 && remarks.length === 0;
}

/** Each value about twice or more, and no more than 24 different ones. */
function isFewCodes(written: WrittenColumn, known: readonly string[]): boolean {
  const filled = written.count((value) => !isMissing(value));
  return known.length <= 24 && filled >= known.length * 2;
}

/** The column of the department's own under a heading. */
export function ownColumnSpec(
  heading: string,
  kind: ColumnKind,
  taken: ReadonlySet<string>,
): ColumnSpec {
  return { name: ownColumnName(heading, taken), label: heading, kind };
}
