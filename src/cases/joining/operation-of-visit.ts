import { fieldNamed } from "../dictionary.ts";
import type { CellValue } from "../table.ts";
import type { UncheckedCases } from "../unchecked-cases.ts";
import { keyOf, rowsByKey, valuesIn } from "./row-keys.ts";

/** Why a row of follow-up belongs to no operation. */
export interface NoOperation {
  readonly code: string;
  readonly reason: string;
  readonly remedy: string;
}

/** Finds the operation that a row of follow-up tells of. */
export class OperationFinder {
  readonly #byCase: ReadonlyMap<string, readonly number[]>;
  readonly #byEye: ReadonlyMap<string, readonly number[]>;
  readonly #caseOf: (row: number) => string | null;
  readonly #eyeOf: (row: number) => string | null;
  readonly #contradicts: (operation: number, row: number) => boolean;
  readonly #operated: (row: number) => CellValue;
  readonly #operatedOf: (row: number) => CellValue;
  readonly #daysOf: (row: number) => readonly number[];

  constructor(operations: UncheckedCases, followUp: UncheckedCases) {
    this.#byCase = rowsByKey(operations, keyOf(operations, ["case"]));
    this.#byEye = rowsByKey(operations, keyOf(operations, ["patient", "eye"]));
    this.#caseOf = keyOf(followUp, ["case"]);
    this.#eyeOf = keyOf(followUp, ["patient", "eye"]);
    this.#contradicts = contradiction(operations, followUp);
    this.#operated = valuesIn(operations, "operation_date");
    this.#operatedOf = valuesIn(followUp, "operation_date");
    this.#daysOf = laterDays(followUp);
  }

  /** The row of the operation, or why there is none. */
  operationOf(row: number): number | NoOperation {
    const called = this.#byCase.get(this.#caseOf(row) ?? "");
    if (called !== undefined) return this.#theOne(called, row);
    const ofEye = this.#byEye.get(this.#eyeOf(row) ?? "");
    return ofEye === undefined ? noSuchEye : this.#ofEye(ofEye, row);
  }

  #theOne(called: readonly number[], row: number): number | NoOperation {
    const fitting = called.filter((operation) => !this.#contradicts(operation, row));
    if (fitting.length === 0) return anotherPatient;
    return fitting.length === 1 ? fitting[0]! : undecided;
  }

  #ofEye(operations: readonly number[], row: number): number | NoOperation {
    const operated = this.#operatedOf(row);
    if (operated !== null) {
      const onDay = operations.filter((operation) => this.#operated(operation) === operated);
      return onDay[0] ?? noSuchDay;
    }
    if (operations.length === 1) return operations[0]!;
    if (operations.some((operation) => this.#operated(operation) === null)) return undecided;
    const inOrder = [...operations].sort((one, other) => this.#dayOf(one) - this.#dayOf(other));
    const days = this.#daysOf(row);
    if (days.length === 0) return inOrder.at(-1)!;
    const told = new Set(days.map((day) => this.#lastBefore(inOrder, day)));
    return told.size === 1 ? [...told][0]! : undecided;
  }

  #lastBefore(inOrder: readonly number[], day: number): number {
    return inOrder.findLast((operation) => this.#dayOf(operation) <= day) ?? inOrder[0]!;
  }

  #dayOf(operation: number): number {
    return this.#operated(operation) as number;
  }
}

/** Whether both name the patient, the eye or the day of operation, and differ. */
function contradiction(
  operations: UncheckedCases,
  followUp: UncheckedCases,
): (operation: number, row: number) => boolean {
  const readers = ["patient", "eye", "operation_date"].map(
    (field) => [valuesIn(operations, field), valuesIn(followUp, field)] as const,
  );
  return (operation, row) =>
    readers.some(([known, told]) => {
      const [here, there] = [known(operation), told(row)];
      return here !== null && there !== null && here !== there;
    });
}

/** The days of visits and events that a row tells of. */
function laterDays(followUp: UncheckedCases): (row: number) => readonly number[] {
  const days = followUp.columns.filter(
    ({ name }) => name !== "operation_date" && fieldNamed(name)?.kind === "day",
  );
  return (row) =>
    days.map(({ values }) => values[row]).filter((day): day is number => typeof day === "number");
}

const noSuchEye: NoOperation = {
  code: "follow-up-without-operation",
  reason: "no operation in the earlier file has its case, or its patient and eye",
  remedy: "add the operation, or correct the case, the patient or the eye",
};

const noSuchDay: NoOperation = {
  code: "follow-up-without-operation",
  reason: "no operation of this eye in the earlier file is of that day",
  remedy: "add the operation, or correct its date",
};

const anotherPatient: NoOperation = {
  code: "follow-up-of-another",
  reason: "the case of this name in the earlier file is of another patient, eye or day",
  remedy: "correct the case, or leave it out and give patient and eye",
};

const undecided: NoOperation = {
  code: "follow-up-undecided",
  reason: "it can belong to more than one operation of this eye",
  remedy: "give the case, or the date of the operation that it follows",
};
