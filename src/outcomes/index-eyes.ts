import type { CaseReading } from "../cases/case-reading.ts";
import { rowCount, rowsOf, type Table, withColumn } from "../cases/table.ts";
import { type Episode, episodesOf, type FieldReader, fieldReader } from "./episode.ts";
import { type EyeHistory, eyeHistory } from "./eye-history.ts";
import type { EyeRecord, LeftOutEye } from "./eye-record.ts";
import { type Followed, followEye } from "./follow-eye.ts";
import type { OutcomeRules } from "./outcome-rules.ts";
import { recordedFactors, riskOfEye, riskStrata } from "./risk-stratum.ts";
import { stoppedByReason } from "./stopped-rows.ts";

export interface EyeSelection {
  /** First and last day of the primary repair, since 1970-01-01, both included. */
  readonly from?: number;
  readonly to?: number;
  /**
   * Whether the eye of this row is wanted (the row of the primary repair): `missing` leaves it
   * out and counts it apart.
   */
  readonly wanted?: (row: number) => boolean | null;
}

/**
 * Cases to index eyes: each eye's primary repair in the period, followed through its later rows.
 *
 * Every row of the case table is either the primary repair of an eye in the record, a later
 * operation on one, or named in `leftOut` with its reason.
 */
export function indexEyes(
  reading: CaseReading,
  rules: OutcomeRules,
  selection: EyeSelection = {},
): EyeRecord {
  const read = fieldReader(reading.cases);
  const rows = rowCount(reading.cases);
  const { episodes, without } = episodesOf(read, rows);
  const line = (row: number): number => reading.lines[row] ?? 0;
  const leftOut: LeftOutEye[] = without.map(({ rows: group, reason }) => ({
    reason,
    lines: group.map(line),
  }));
  const chosen: Episode[] = [];
  for (const episode of episodes) {
    const reason = whyNotWanted(read, episode, selection);
    if (reason === undefined) chosen.push(episode);
    else leftOut.push({ reason, lines: episode.rows.map(line) });
  }
  const histories = chosen.map((episode) => eyeHistory(read, episode));
  const followed = histories.map((history) => followEye(history, rules));
  const primaryRows = chosen.map((episode) => episode.rows[0] ?? 0);
  const laterRows = chosen.reduce((sum, episode) => sum + episode.rows.length - 1, 0);
  return {
    table: outcomeTable(reading.cases, primaryRows, histories, followed),
    time: Float64Array.from(followed, (each) => each.time),
    event: Uint8Array.from(followed, (each) => (each.event ? 1 : 0)),
    undecided: Uint8Array.from(followed, (each) => (each.undecided ? 1 : 0)),
    state: followed.map((each) => each.state),
    causes: followed.map((each, eye) => (each.event ? (histories[eye]?.causes ?? []) : [])),
    patient: primaryRows.map((row) => {
      const patient = read("patient", row);
      return patient === null ? null : String(patient);
    }),
    lines: chosen.map((episode) => episode.rows.map(line)),
    timeUnit: "days",
    rules,
    ...(rules.window === undefined ? {} : { window: rules.window }),
    leftOut,
    flow: {
      rowsRead: reading.rowsRead,
      rowsStopped: stoppedByReason(reading),
      rows,
      primaryRows: chosen.length,
      laterRows,
    },
  };
}

function whyNotWanted(
  read: FieldReader,
  episode: Episode,
  { from, to, wanted }: EyeSelection,
): string | undefined {
  const row = episode.rows[0] ?? 0;
  const day = read("operation_date", row) as number;
  if (from !== undefined && day < from) return "operated before the period";
  if (to !== undefined && day > to) return "operated after the period";
  const answer = wanted?.(row) ?? (wanted === undefined ? true : null);
  if (answer === null) return "what the condition asks is not recorded";
  return answer ? undefined : "the condition does not hold";
}

function outcomeTable(
  cases: Table,
  primaryRows: readonly number[],
  histories: readonly EyeHistory[],
  followed: readonly Followed[],
): Table {
  const eyes = rowsOf(cases, primaryRows);
  const read = fieldReader(eyes);
  const factors = recordedFactors((field) => eyes.positions.has(field));
  const risks = primaryRows.map((_, eye) => riskOfEye(read, eye, factors));
  const added: Parameters<typeof withColumn>[1][] = [
    ...outcomeColumns(histories, followed),
    {
      name: "risk_factors",
      label: "risk factors for PVR recorded",
      kind: "number",
      values: risks.map((risk) => risk.present.length),
    },
    {
      name: "risk_stratum",
      label: "risk of PVR failure",
      kind: "code",
      order: riskStrata,
      values: risks.map((risk) => risk.stratum),
    },
  ];
  return added.reduce((table, column) => withColumn(table, column), eyes);
}

function outcomeColumns(
  histories: readonly EyeHistory[],
  followed: readonly Followed[],
): Parameters<typeof withColumn>[1][] {
  return [
    {
      name: "time",
      label: "follow-up",
      kind: "number",
      unit: "days",
      values: followed.map((each) => each.time),
    },
    {
      name: "event",
      label: "failed",
      kind: "truth",
      values: followed.map((each) => (each.undecided ? null : each.event)),
    },
    {
      name: "state",
      label: "state at end of follow-up",
      kind: "code",
      values: followed.map((each) => each.state),
    },
    {
      name: "cause",
      label: "cause of failure",
      kind: "codes",
      values: followed.map((each, eye) =>
        each.event && (histories[eye]?.causes.length ?? 0) > 0
          ? (histories[eye]?.causes ?? null)
          : null,
      ),
    },
    {
      name: "operations",
      label: "operations on the eye",
      kind: "number",
      values: histories.map((history) => history.operations),
    },
  ];
}
