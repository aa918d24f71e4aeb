import { foldSpelling } from "../fold-spelling.ts";
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

const yes: ReadonlySet<string> = new Set(["y", "yes", "true", "t", "1", "present", "positive"]);
const no: ReadonlySet<string> = new Set([
  "n",
  "no",
  "false",
  "f",
  "0",
  "absent",
  "negative",
  "none",
  "nil",
]);

/** Yes and no, by the notebook's spellings and the usual ones. Nothing written is missing, not no. */
export function readTruths(written: WrittenColumn, context: ColumnContext): ColumnReading {
  const read = readEach(written, (value) => readTruth(value, context));
  return { ...read, remarks: [] };
}

function readTruth(written: string, context: ColumnContext): Reading {
  const folded = foldSpelling(context.codes?.get(written) ?? written);
  if (yes.has(folded)) return { value: true };
  if (no.has(folded)) return { value: false };
  return isMissing(written) ? { value: null } : missingBecause(notYesOrNo);
}

const notYesOrNo: Fault = {
  code: "not-yes-or-no",
  message: "this is neither yes nor no.",
  expected: "yes or no, Y or N, 1 or 0, true or false",
  remedy: "correct the value, or say what it stands for",
};
