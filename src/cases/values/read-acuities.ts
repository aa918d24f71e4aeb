import {
  defaultLowVisionTable,
  type LowVisionTable,
  logMarFromDecimal,
  logMarFromLetters,
  logMarFromLowVision,
  logMarFromSnellen,
} from "../acuity.ts";
import type { AcuityNotation } from "../matching.ts";
import { isMissing } from "../missing-value.ts";
import type { WrittenColumn } from "../written-column.ts";
import {
  type ColumnContext,
  type ColumnReading,
  type Fault,
  missingBecause,
  type Reading,
  type Remark,
  readEach,
} from "./column-reading.ts";
import { settleAcuity } from "./settle-acuity.ts";
import { type WrittenAcuity, writtenAcuity } from "./written-acuity.ts";

/** The best and worst logMAR that a chart can give. */
const chart = { best: -0.5, worst: 3 };
const perLetter = 0.02;

/** Acuities as logMAR, in whatever way each is written, and beside them the text itself. */
export function readAcuities(
  written: WrittenColumn,
  name: string,
  context: ColumnContext,
): ColumnReading {
  const table = context.lowVision ?? defaultLowVisionTable;
  const acuities = new Map<string, WrittenAcuity>();
  for (const value of written.different) {
    if (!isMissing(value)) acuities.set(value, writtenAcuity(value));
  }
  const settled = settleAcuity(bareNumbers(written, acuities), context);
  const read = readEach(written, (value) => {
    const acuity = acuities.get(value);
    return acuity === undefined ? { value: null } : readAcuity(acuity, settled.notation, table);
  });
  const texts = written.map((value) => (isMissing(value) ? null : value));
  return {
    ...read,
    remarks: [...settled.remarks, ...notMeasurable(written, acuities, table)],
    companions: new Map([[`${name}_written`, texts]]),
    ...(settled.notation && { settled: { acuityNotation: settled.notation } }),
  };
}

function readAcuity(
  acuity: WrittenAcuity,
  notation: AcuityNotation | undefined,
  table: LowVisionTable,
): Reading {
  switch (acuity.shape) {
    case "snellen": {
      const line = logMarFromSnellen(acuity.numerator, acuity.denominator);
      return onChart(line - acuity.letters * perLetter);
    }
    case "low":
      return { value: logMarFromLowVision(acuity.seen, table, acuity.distanceFeet) };
    case "date":
      return missingBecause(turnedIntoDate);
    case "unknown":
      return missingBecause(notAnAcuity);
    case "bare":
      return notation === undefined ? { value: null } : inNotation(acuity.number, notation);
    default:
      return inNotation(acuity.number, acuity.shape);
  }
}

function inNotation(number: number, notation: AcuityNotation): Reading {
  if (notation === "logMAR") return onChart(number);
  if (notation === "letters") {
    const fits = Number.isInteger(number) && number >= 0 && number <= 100;
    return fits ? { value: logMarFromLetters(number) } : missingBecause(doesNotFit);
  }
  return number <= 0 ? missingBecause(doesNotFit) : onChart(logMarFromDecimal(number));
}

function onChart(logMar: number): Reading {
  if (logMar < chart.best || logMar > chart.worst) return missingBecause(doesNotFit);
  return { value: logMar };
}

function bareNumbers(
  written: WrittenColumn,
  acuities: ReadonlyMap<string, WrittenAcuity>,
): readonly number[] {
  const bare = (value: string): boolean => acuities.get(value)?.shape === "bare";
  return written.rowsWhere(bare).flatMap((row) => {
    const acuity = acuities.get(written.at(row)!);
    return acuity?.shape === "bare" ? [acuity.number] : [];
  });
}

/** Low vision that the table in use gives no number for is missing: said once for the column. */
function notMeasurable(
  written: WrittenColumn,
  acuities: ReadonlyMap<string, WrittenAcuity>,
  table: LowVisionTable,
): Remark[] {
  const count = written.count((value) => {
    const acuity = acuities.get(value);
    return acuity?.shape === "low" && table.values[acuity.seen] === null;
  });
  if (count === 0) return [];
  return [
    {
      severity: "note",
      code: "acuity-not-measurable",
      message: `${count === 1 ? "1 value has" : `${count} values have`} no logMAR in the table of ${table.name} and ${count === 1 ? "is" : "are"} missing as a number; the text is kept.`,
      remedy: "choose a table that gives light perception a number, if the meeting agrees",
    },
  ];
}

const ways = "6/9, 20/40, 6/9-2, 0.3 logMAR, 0.5 decimal, 70 letters, CF, HM, PL or NPL";

const notAnAcuity: Fault = {
  code: "not-an-acuity",
  message: "this is not an acuity.",
  expected: ways,
  remedy: "correct the value",
};

const turnedIntoDate: Fault = {
  code: "acuity-turned-into-date",
  message:
    "this is a date; a spreadsheet turns fractions such as 6/9 into dates when it opens them.",
  expected: ways,
  remedy: "put the acuity back, with the column set to text before typing",
};

const doesNotFit: Fault = {
  code: "acuity-does-not-fit",
  message: "no acuity in this notation has such a value.",
  expected: "logMAR -0.5 to 3, decimal above 0, letters 0 to 100",
  remedy: "correct the value, or say in which notation this column is",
};
