import type { CaseReading } from "../cases/case-reading.ts";
import type { Value } from "../formula/value.ts";
import { type ReadFrom, whyRead } from "./case-readings.ts";
import { casesThing } from "./cases-thing.ts";
import type { Sheet } from "./sheet.ts";

/** What an input of the sheet besides the cases is given, and what happened, in words. */
export interface Given {
  readonly value: Value;
  readonly because: string;
}

/** By the name of the input. */
export type GivenInputs = ReadonlyMap<string, Given>;

/** Feeds a sheet from outside: with its cases, and with whatever else it takes. */
export class SheetFeed {
  readonly #sheet: Sheet;
  readonly #others: readonly string[];
  #fed: Partial<ReadFrom> | undefined;
  #reading: CaseReading | undefined;

  constructor(sheet: Sheet, inputs: ReadonlySet<string> = new Set()) {
    this.#sheet = sheet;
    this.#others = [...inputs].filter((name) => name !== "cases");
  }

  /** The cases as they were fed last, or undefined where none were. */
  get reading(): CaseReading | undefined {
    return this.#reading;
  }

  feed(now: Partial<ReadFrom>, reading: CaseReading | undefined, given: GivenInputs): void {
    this.#feedCases(now, reading);
    for (const name of this.#others) {
      const { value, because = `${name} were closed` } = given.get(name) ?? {};
      this.#sheet.setInput(name, value, because);
    }
  }

  #feedCases(now: Partial<ReadFrom>, reading: CaseReading | undefined): void {
    if (reading === this.#reading) return;
    const why = reading === undefined ? "cases were closed" : whyRead(this.#fed, now);
    this.#fed = now;
    this.#reading = reading;
    this.#sheet.setInput("cases", reading && casesThing(reading), why);
  }
}
