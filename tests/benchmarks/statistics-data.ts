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
  readonly covariates: readonly Float64Array[];
}

const COVARIATES = 12;

/** The data of so many rows; the same rows for the same seed. */
export function benchmarkData(rows: number, seed = 11): BenchmarkData {
  const { uniform, below: integer } = seededRandom(seed);
  const covariates = Array.from({ length: COVARIATES }, (_, c) =>
    Float64Array.from({ length: rows }, () => (c % 3 === 0 ? integer(2) : uniform() * 2 - 1)),
  );
  const risk = Float64Array.from({ length: rows }, (_, i) =>
    covariates.reduce((sum, column, c) => sum + (((c % 5) - 2) / 6) * column[i]!, 0),
  );
  const failure = risk.map((r) => (-Math.log(1 - uniform()) * 2500) / Math.exp(r));
  const end = risk.map(() => 30 + uniform() * 1800);
  const continuous = failure.map((t, i) => Math.min(t, end[i]!));
  const event = Uint8Array.from(failure, (t, i) => Number(t <= end[i]!));
  return {
    rows,
    days: Int32Array.from(continuous, Math.floor),
    continuous,
    event,
    cause: event.map((e) => (e === 0 ? 0 : 1 + integer(2))),
    group: Int32Array.from(risk, () => integer(4)),
    stratum: Int32Array.from(risk, () => integer(20)),
    outcome: Uint8Array.from(risk, (r) => Number(uniform() < 1 / (1 + Math.exp(2 - r)))),
    covariates,
  };
}

/** The data as CSV text, continuous times with all their digits. */
export function benchmarkCsv(data: BenchmarkData): string {
  const names = data.covariates.map((_, c) => `x${c + 1}`);
  const lines = [
    ["days", "time", "event", "cause", "group", "stratum", "outcome", ...names].join(),
  ];
  for (let i = 0; i < data.rows; i++) {
    const { days, continuous, event, cause, group, stratum, outcome } = data;
    const known = [days, continuous, event, cause, group, stratum, outcome].map((v) => v[i]);
    lines.push([...known, ...data.covariates.map((column) => column[i])].join());
  }
  return lines.join("\n");
}
