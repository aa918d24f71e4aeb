import { nearestName } from "../../problem/nearest-name.ts";
import type { Code, ColumnSpec } from "../field.ts";
import { foldSpelling } from "../fold-spelling.ts";
import { isMissing } from "../missing-value.ts";
import type { WrittenColumn } from "../written-column.ts";
import {
  type ColumnContext,
  type ColumnReading,
  missingBecause,
  type Reading,
  readEach,
} from "./column-reading.ts";

/** One code a row, by the notebook's spellings and the known ones; any text where none are listed. */
export function readCodes(
  written: WrittenColumn,
  spec: ColumnSpec,
  context: ColumnContext,
): ColumnReading {
  const find = codeFinder(spec.codes, context);
  const read = readEach(written, (value) => {
    const code = find(value);
    if (code !== undefined) return { value: code };
    return isMissing(value) ? { value: null } : unknownCode(value, spec);
  });
  return { ...read, remarks: [] };
}

/** Several codes a row, set apart by ";", or by other signs where that alone gives known codes. */
export function readCodeLists(
  written: WrittenColumn,
  spec: ColumnSpec,
  context: ColumnContext,
): ColumnReading {
  const find = codeFinder(spec.codes, context);
  const read = readEach(written, (value): Reading => {
    const whole = find(value);
    if (whole !== undefined) return { value: [whole] };
    if (isMissing(value)) return { value: null };
    if (saysNone.has(foldSpelling(value))) return { value: [] };
    const parts = splitCodes(value, find);
    const unknown = parts.find((part) => find(part) === undefined);
    if (unknown !== undefined) return unknownCode(unknown, spec);
    return { value: [...new Set(parts.map((part) => find(part)!))] };
  });
  return { ...read, remarks: [] };
}

/** Where a list has no code for it, "none" is a list of none: known, and not missing. */
const saysNone: ReadonlySet<string> = new Set(["none", "no", "nil", "n", "0"]);

type FindCode = (written: string) => string | undefined;

/** The code that a text stands for. */
export function codeFinder(
  codes: readonly Code[] | undefined,
  context: Pick<ColumnContext, "codes">,
): FindCode {
  const told = new Map<string, string>(context.codes);
  for (const [written, code] of told) told.set(foldKey(written), code);
  if (codes === undefined) {
    return (written) => told.get(written) ?? (isMissing(written) ? undefined : written);
  }
  const known = new Map(
    codes.flatMap(({ code, spellings }) =>
      [code, ...spellings].map((spelling) => [foldKey(spelling), code] as const),
    ),
  );
  return (written) => {
    const key = foldKey(written);
    const toldCode = told.get(written) ?? told.get(key);
    if (toldCode !== undefined) return known.get(foldKey(toldCode));
    return apartDigits.test(written) ? undefined : known.get(key);
  };
}

/** Signs between two digits are no matter of spelling: "1;2" and "1 2" are not 12. */
const apartDigits = /\d[^\p{L}\p{N}]+\d/u;

/** Signs alone ("?") fold to nothing and stand for themselves. */
function foldKey(written: string): string {
  return foldSpelling(written) || written;
}

function splitCodes(written: string, find: FindCode): readonly string[] {
  const parts = partsBy(written, /;/);
  if (parts.every((part) => find(part) !== undefined)) return parts;
  const finer = parts.flatMap((part) =>
    find(part) === undefined ? partsBy(part, /[,/+&]|\band\b|(?<=\d)\s+(?=\d)/i) : [part],
  );
  return finer.every((part) => find(part) !== undefined) ? finer : parts;
}

function partsBy(written: string, separator: RegExp): string[] {
  return written
    .split(separator)
    .map((part) => part.trim())
    .filter((part) => part !== "");
}

function unknownCode(written: string, spec: ColumnSpec): Reading {
  const codes = spec.codes?.map(({ code }) => code) ?? [];
  const near = nearestName(written, codes);
  return missingBecause({
    code: "code-unknown",
    message: "this is not one of the values known here.",
    expected: codes.join(", "),
    remedy: near === undefined ? "say once what it stands for" : `did you mean "${near}"?`,
  });
}
