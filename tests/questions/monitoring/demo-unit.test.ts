import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { drift } from "../../../data-demo/truth.ts";
import { readCases } from "../../../src/cases/read-cases.ts";
import { ask, casesValue, workedOut } from "../ask.ts";

/*
 * What is true of the invented unit must be found in its file by the questions, as the notebooks ask
 * them: surgeon E does worse from a day in 2025 on, trainee T2 improves in order of operation.
 */
const reading = readCases({
  name: "repairs.csv",
  bytes: new Uint8Array(readFileSync("data-demo/repairs.csv")),
});
const cases = casesValue(reading);
const eyes = workedOut("index_eyes(cases, from: 2023-01-01, to: 2025-12-31)", { cases });

interface Watched {
  readonly has_signal: boolean;
  readonly signal_day: string | null;
  readonly worse: { readonly signals: readonly { readonly run_from: number }[] };
  readonly better: { readonly signals: readonly unknown[] };
}

function watched(surgeon: string): Watched {
  const working = `cusum(eyes, risk_factors, surgeon: "${surgeon}", run_length: 300, tolerance: 2 weeks)`;
  return ask(working, { eyes }).figures as unknown as Watched;
}

describe("the surgeon who drifts", () => {
  const found = watched(drift.surgeon);

  test("signals for doubled odds, after the day of the drift and on no run that began long before", () => {
    expect(found.has_signal).toBe(true);
    expect(String(found.signal_day) > drift.from).toBe(true);
    const working = `cusum(keep(eyes, where: operation_date < ${drift.from}), risk_factors, surgeon: "${drift.surgeon}", run_length: 300, tolerance: 2 weeks, until: 2026-03-31)`;
    const before = ask(working, { eyes }).figures as unknown as Watched;
    expect(before.has_signal).toBe(false);
  });
});

describe("surgeons who do not drift", () => {
  test.each(["A", "B", "C", "D", "F", "T1", "T3"])(
    "%s does not signal for more failures",
    (code) => {
      expect(watched(code).has_signal).toBe(false);
    },
  );

  test.each(["A", "B", "C"])("%s signals for fewer neither", (code) => {
    expect(watched(code).better.signals).toEqual([]);
  });
});

test("the drift is found at the run length that holds where none is asked for as well", () => {
  const { figures } = ask(
    `cusum(eyes, risk_factors, surgeon: "${drift.surgeon}", tolerance: 2 weeks)`,
    { eyes },
  );
  expect(figures.has_signal).toBe(true);
  expect(String(figures.signal_day) > drift.from).toBe(true);
});

test("the trainee who improves: failures fall over the thirds", () => {
  const { figures } = ask(
    'learning_curve(eyes, trainee: "T2", acceptable: 13%, unacceptable: 26%, source: "agreed", tolerance: 2 weeks)',
    { eyes },
  );
  expect(Number(figures.trend_z)).toBeLessThan(0);
  expect(Number(figures.trend_p)).toBeLessThan(0.05);
});
