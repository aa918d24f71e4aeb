/** Invented eyes for the benchmarks: whole days to five years, ties, four groups, twelve covariates. */
import { seededRandom } from "../../src/statistics/seeded-random.ts";

export interface BenchmarkData {
  readonly rows: number;
  /** Whole days, and the same with a fraction of a day. */
  readonly days: Int32Array;
  readonly continuous: Float64Array;
  readonly event: Uint8Array;
  /** 0 censored, 1 and 2 causes. */
  readonly cause: Uint8Array;
  readonly group: Int32Array;
  readonly stratum: Int32Array;
  readonly outcome: Uint8Array;
  /** The probability of that outcome. */
  readonly risk: Float64Array;
  readonly covariates: readonly Float64Array[];
}

const COVARIATES = 12;

/** The data of so many rows; the same rows for the same seed. */
export function benchmarkData(rows: number, seed = 11): BenchmarkData {
  const { uniform, below: integer } = seededRandom(seed);
  const covariates = Array.from({ length: COVARIATES }, (_, c) =>
    Float64Array.from({ length: rows }, () => (c % 3 === 0 ? integer(2) : uniform() * 2 - 1)),
  );
  const hazard = Float64Array.from({ length: rows }, (_, i) =>
    covariates.reduce((sum, column, c) => sum + (((c % 5) - 2) / 6) * column[i]!, 0),
  );
  const failure = hazard.map((r) => (-Math.log(1 - uniform()) * 2500) / Math.exp(r));
  const end = hazard.map(() => 30 + uniform() * 1800);
  const risk = hazard.map((r) => 1 / (1 + Math.exp(2 - r)));
  const continuous = failure.map((t, i) => Math.min(t, end[i]!));
  const event = Uint8Array.from(failure, (t, i) => Number(t <= end[i]!));
  return {
    rows,
    days: Int32Array.from(continuous, Math.floor),
    continuous,
    event,
    cause: event.map((e) => (e === 0 ? 0 : 1 + integer(2))),
    group: Int32Array.from(hazard, () => integer(4)),
    stratum: Int32Array.from(hazard, () => integer(20)),
    outcome: Uint8Array.from(risk, (r) => Number(uniform() < r)),
    risk,
    covariates,
  };
}

/** The data as CSV text, continuous times with all their digits. */
export function benchmarkCsv(data: BenchmarkData): string {
  const names = data.covariates.map((_, c) => `x${c + 1}`);
  const lines = [
    ["days", "time", "event", "cause", "group", "stratum", "outcome", "risk", ...names].join(),
  ];
  for (let i = 0; i < data.rows; i++) {
    const { days, continuous, event, cause, group, stratum, outcome, risk } = data;
    const known = [days, continuous, event, cause, group, stratum, outcome, risk].map((v) => v[i]);
    lines.push([...known, ...data.covariates.map((column) => column[i])].join());
  }
  return lines.join("\n");
}
