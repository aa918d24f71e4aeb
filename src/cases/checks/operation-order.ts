import type { CasesToCheck, Finding } from "./check.ts";

/** Techniques that follow a repair and are none themselves. */
const follows: ReadonlySet<unknown> = new Set(["buckle revision", "gas injection", "oil removal"]);

/** A query: the eye's first row in the file is not its first operation. */
export function laterOperationWithoutFirst(cases: CasesToCheck): readonly Finding[] {
  const findings: Finding[] = [];
  for (const rows of cases.rowsByEye()) {
    const first = firstOf(cases, rows);
    if (first === undefined) continue;
    const number = numberOf(cases, first)!;
    const technique = cases.value("technique", first);
    if (number === 1 && !follows.has(technique)) continue;
    findings.push({
      row: first,
      field: number === 1 ? "technique" : "operation_number",
      code: "later-operation-without-first",
      message: "the first operation of this eye is not among the cases.",
      found: number === 1 ? String(technique) : `operation ${number}`,
      expected: "the primary repair of every eye",
      remedy:
        "add the row of the primary repair, mend it where it was left out, or correct this one",
    });
  }
  return findings;
}

/** The row with the least number. */
function firstOf(cases: CasesToCheck, rows: readonly number[]): number | undefined {
  let first: number | undefined;
  for (const row of rows) {
    if (numberOf(cases, row) === null) continue;
    if (first === undefined || order(cases, row, first) < 0) first = row;
  }
  return first;
}

/** A query: a number that comes twice, or numbers that run against the dates. */
export function operationsOutOfOrder(cases: CasesToCheck): readonly Finding[] {
  const several = cases.rowsByEye().filter((rows) => rows.length > 1);
  return several.flatMap((rows) => {
    const inOrder = rows
      .filter((row) => numberOf(cases, row) !== null)
      .sort((one, other) => order(cases, one, other));
    return inOrder.flatMap((row, i): Finding[] => {
      const previous = inOrder[i - 1];
      return previous === undefined ? [] : compare(cases, previous, row);
    });
  });
}

function compare(cases: CasesToCheck, previous: number, row: number): Finding[] {
  const [before, after] = [numberOf(cases, previous)!, numberOf(cases, row)!];
  const place = { row, field: "operation_number" };
  if (before === after) {
    return [
      {
        ...place,
        code: "operation-number-twice",
        message: "another row of this eye has the same operation number.",
        found: `operation ${after}`,
        expected: "1 for the primary repair, 2 for the next, and so on",
        remedy: "correct the number of one of them",
      },
    ];
  }
  const [dayBefore, day] = [
    cases.day("operation_date", previous),
    cases.day("operation_date", row),
  ];
  if (dayBefore === null || day === null || day >= dayBefore) return [];
  return [
    {
      ...place,
      code: "operations-out-of-order",
      message: `this operation is dated before operation ${before} of the same eye.`,
      found: `operation ${after}`,
      expected: "numbers that rise with the dates",
      remedy: "correct the number or the date",
    },
  ];
}

function numberOf(cases: CasesToCheck, row: number): number | null {
  return cases.day("operation_number", row);
}

function order(cases: CasesToCheck, one: number, other: number): number {
  return numberOf(cases, one)! - numberOf(cases, other)! || one - other;
}
