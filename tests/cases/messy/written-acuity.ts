import type { Mess } from "./mess.ts";

/** Low vision in words, by its logMAR. */
const lowVision: ReadonlyMap<number, readonly string[]> = new Map([
  [1.9, ["CF", "counting fingers", "CF at 2 m"]],
  [2.3, ["HM", "hand movements", "hand motion"]],
  [2.7, ["PL", "light perception", "LP"]],
  [3, ["NPL", "no light perception", "NLP"]],
]);

type Notation = Exclude<Mess["acuity"], "by row">;

const byRow: readonly Notation[] = ["6/x", "20/x", "logMAR", "20/x and letters", "letters"];

/**
 * By the definitions: decimal acuity is 10 to the minus logMAR, letters are 85 less 50 logMAR, and
 * a letter of a line is 0.02 logMAR.
 */
export function writtenAcuity(logMar: number, { acuity, decimalComma }: Mess, i: number): string {
  const low = lowVision.get(logMar);
  if (low !== undefined) return low[acuity === "6/x" ? 0 : 1 + (i % 2)]!;
  const written = notations[acuity === "by row" ? byRow[i % byRow.length]! : acuity](logMar);
  return decimalComma ? written.replace(".", ",") : written;
}

const notations: Readonly<Record<Notation, (logMar: number) => string>> = {
  "6/x": (logMar) => `6/${Math.round(6 * 10 ** logMar)}`,
  "20/x": (logMar) => `20/${Math.round(20 * 10 ** logMar)}`,
  "20/x and letters": (logMar) => `20/${Math.round(20 * 10 ** (logMar - 0.04))}-2`,
  logMAR: (logMar) => `${logMar} logMAR`,
  "bare logMAR": (logMar) => String(logMar),
  decimal: (logMar) => `${Math.round(10 ** -logMar * 100) / 100} decimal`,
  letters: (logMar) => `${Math.round(85 - 50 * logMar)} letters`,
  "bare letters": (logMar) => String(Math.round(85 - 50 * logMar)),
};
