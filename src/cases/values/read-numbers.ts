import type { ColumnSpec, Range } from "../field.ts";
import { isMissing } from "../missing-value.ts";
import type { WrittenColumn } from "../written-column.ts";
import {
  type ColumnContext,
  type ColumnReading,
  type Fault,
  missingBecause,
  type Reading,
  readEach,
} from "./column-reading.ts";
import { unitOf } from "./written-unit.ts";

/**
 * Numbers, with the unit glued on where it is ("12 d", "24.1 mm"), and with a decimal comma where
 * the file's delimiter is a semicolon or the column shows one ("24,5"). Outside its range a value
 * is missing and listed.
 */
export function readNumbers(
  written: WrittenColumn,
  spec: ColumnSpec,
  context: ColumnContext,
): ColumnReading {
  const hasDecimalComma = context.delimiter === ";" || showsDecimalComma(written.different);
  const read = readEach(written, (value) => readNumber(value, spec, hasDecimalComma));
  return { ...read, remarks: [] };
}

function readNumber(written: string, spec: ColumnSpec, hasDecimalComma: boolean): Reading {
  if (isMissing(written)) return { value: null };
  const number = simple.test(written)
    ? Number(written)
    : inUnit(written, { unit: spec.unit, hasDecimalComma });
  if (number === null) return missingBecause(notANumber(spec));
  const { range } = spec;
  if (range !== undefined && (number < range.least || number > range.most)) {
    return missingBecause(outOfRange(spec, range));
  }
  if (spec.whole && !Number.isInteger(number)) return missingBecause(notWhole);
  return { value: number };
}

/** Most numbers of most files, which need no other look. */
const simple = /^-?\d+(\.\d+)?$/;

function inUnit(
  written: string,
  { unit, hasDecimalComma }: { unit: string | undefined; hasDecimalComma: boolean },
): number | null {
  const { amount, factor } = unitOf(written, unit);
  const plain = plainNumber(amount, hasDecimalComma);
  return plain === null || factor === null ? null : plain * factor;
}

/** "1,234.5", "2.5e-05" or, with a decimal comma, "1.234,5", "24,5" and also "24.5". Null for anything else. */
export function plainNumber(written: string, hasDecimalComma: boolean): number | null {
  if (simple.test(written)) return Number(written);
  const text = written.replace(/^[\u2212\u2013]/, "-").replaceAll(/[\u00a0\u202f' ]/g, "");
  if (/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]\d{1,3})?$/i.test(text)) return Number(text);
  if (hasDecimalComma) {
    if (/^[+-]?(\d*|\d{1,3}(\.\d{3})+),\d+$/.test(text)) {
      return Number(text.replaceAll(".", "").replace(",", "."));
    }
    return null;
  }
  if (/^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/.test(text)) return Number(text.replaceAll(",", ""));
  return null;
}

/** One value whose comma cannot set thousands apart is enough: "24,5", "0,125", ",5". */
export function showsDecimalComma(written: readonly string[]): boolean {
  return written.some(
    (value) =>
      value.includes(",") &&
      /^[+-]?(\d+,(\d{1,2}|\d{4,})|0\d*,\d+|\d{4,},\d+|,\d+)(?!\d)/.test(value),
  );
}

function notANumber(spec: ColumnSpec): Fault {
  const unit = spec.unit === undefined ? "" : ` (${spec.unit})`;
  const remedy = "correct the value";
  return {
    code: "not-a-number",
    message: "this is not a number.",
    expected: `a number${unit}`,
    remedy,
  };
}

function outOfRange(spec: ColumnSpec, range: Range): Fault {
  return {
    code: "out-of-range",
    message: "this number lies outside what is possible here.",
    expected: describeRange(range, spec.unit),
    remedy: "correct the value, or check that the column holds what its heading says",
  };
}

/** "0 to 115 years", "1 or more". */
export function describeRange(range: Range, unit: string | undefined): string {
  const end = range.most === Number.POSITIVE_INFINITY ? " or more" : ` to ${range.most}`;
  return `${range.least}${end}${unit === undefined ? "" : ` ${unit}`}`;
}

const notWhole: Fault = {
  code: "not-whole",
  message: "this counts something and is not a whole number.",
  expected: "a whole number",
  remedy: "correct the value",
};
