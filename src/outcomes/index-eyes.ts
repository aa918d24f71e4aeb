import type { CaseReading } from "../cases/case-reading.ts";
import { rowCount } from "../cases/table.ts";
import type { Episode } from "./episode.ts";
import type { EyeHistory, HistorySource } from "./eye-history.ts";
import type { EyeRecord, LeftOutEye } from "./eye-record.ts";
import { type EyesInCases, eyesInCases, textOf } from "./eyes-in-cases.ts";
import { followEye } from "./follow-eye.ts";
import { withLastAcuity } from "./last-acuity.ts";
import { isDatedEvent, type OutcomeRules } from "./outcome-rules.ts";
import { outcomeTable } from "./outcome-table.ts";
import { recordedFactors, riskFactors } from "./risk-stratum.ts";
import { stoppedByReason, stoppedEyes } from "./stopped-rows.ts";

export interface EyeSelection {
  /** First and last day of the primary repair, since 1970-01-01, both included. */
  readonly from?: number;
  readonly to?: number;
  /**
   * Whether the eye of this row is wanted (the row of the primary repair): null leaves it out
   * and counts it apart.
   */
  readonly wanted?: (row: number) => boolean | null;
}

/**
 * Cases to index eyes: each eye's primary repair in the period, followed through its later rows.
 *
 * Every row of the case table is either the primary repair of an eye in the record, a later
 * operation on one, or named in `leftOut` with its reason. An eye of which a check stopped a row
 * is left out whole: what is left of its rows would tell another story.
 */
export function indexEyes(
  reading: CaseReading,
  rules: OutcomeRules,
  selection: EyeSelection = {},
): EyeRecord {
  const found = eyesInCases(reading);
  const { chosen, leftOut } = chosenEpisodes(reading, found, selection);
  const histories = chosen.map((episode) => found.histories.get(episode)!);
  const timed = isDatedEvent(rules.failure);
  const { window, ...withoutWindow } = rules;
  const applied = timed ? rules : withoutWindow;
  const followed = histories.map((history) => followEye(history, applied));
  const primaryRows = chosen.map((episode) => episode.rows[0] ?? 0);
  const line = (row: number): number => reading.lines[row] ?? 0;
  return {
    table: withLastAcuity(
      outcomeTable(reading.cases, primaryRows, { histories, followed }),
      reading.cases,
      chosen.map(({ rows }) => rows),
    ),
    time: Float64Array.from(followed, (each) => each.time),
    event: Uint8Array.from(followed, (each) => (each.event ? 1 : 0)),
    undecided: Uint8Array.from(followed, (each) => (each.undecided ? 1 : 0)),
    state: followed.map((each) => each.state),
    causes: followed.map((each, eye) => (each.event ? (histories[eye]?.causes ?? []) : [])),
    patient: primaryRows.map((row) => textOf(found.source.read("patient", row))),
    lines: chosen.map((episode) => episode.rows.map(line)),
    timeUnit: "days",
    rules: applied,
    ...(timed && window !== undefined ? { window } : {}),
    leftOut,
    flow: {
      rowsRead: reading.rowsRead,
      rowsStopped: stoppedByReason(reading),
      rows: rowCount(reading.cases),
      rowsQueried: found.rowsQueried,
      primaryRows: chosen.length,
      laterRows: chosen.reduce((sum, episode) => sum + episode.rows.length - 1, 0),
    },
    oil: oilEyes(histories),
    doubts: histories.flatMap(({ doubts }, eye) => (doubts.length === 0 ? [] : [{ eye, doubts }])),
    riskFactorsAbsent: absentFactors(found.source),
    daysSeen: found.daysSeen,
    statePresumed: !found.source.has("status_last_seen") && !found.source.has("final_status"),
  };
}

function chosenEpisodes(
  reading: CaseReading,
  { source, episodes, without }: EyesInCases,
  selection: EyeSelection,
): { readonly chosen: readonly Episode[]; readonly leftOut: readonly LeftOutEye[] } {
  const { read } = source;
  const stopped = stoppedEyes(reading);
  const line = (row: number): number => reading.lines[row] ?? 0;
  const leftOut: LeftOutEye[] = without.map(({ rows, reason }) => ({
    reason,
    lines: rows.map(line),
  }));
  const chosen: Episode[] = [];
  for (const episode of episodes) {
    const reason = stopped(read, episode)
      ? "another row of this eye was stopped by a check"
      : whyNotWanted(read, episode, selection);
    if (reason === undefined) chosen.push(episode);
    else
      leftOut.push({
        reason,
        lines: episode.rows.map(line),
        ...(askedFor.has(reason) && { asked: true }),
      });
  }
  return { chosen, leftOut };
}

const [before, after, unfit] = [
  "operated before the period",
  "operated after the period",
  "the condition does not hold",
];
/** Reasons that the question itself gave. */
const askedFor: ReadonlySet<string> = new Set([before, after, unfit]);

function whyNotWanted(
  read: HistorySource["read"],
  episode: Episode,
  { from, to, wanted }: EyeSelection,
): string | undefined {
  const row = episode.rows[0] ?? 0;
  const day = read("operation_date", row) as number;
  if (from !== undefined && day < from) return before;
  if (to !== undefined && day > to) return after;
  const answer = wanted?.(row) ?? (wanted === undefined ? true : null);
  if (answer === null) return "what the condition asks is not recorded";
  return answer ? undefined : unfit;
}

function oilEyes(histories: readonly EyeHistory[]): NonNullable<EyeRecord["oil"]> {
  const having = (test: (history: EyeHistory) => boolean): number[] =>
    histories.flatMap((history, eye) => (test(history) ? [eye] : []));
  return {
    eyes: having(({ oilInserted }) => oilInserted !== null),
    stillIn: having(({ oilStillIn }) => oilStillIn),
  };
}

function absentFactors({ has }: EyesInCases["source"]): string[] {
  const present = new Set(recordedFactors(has));
  return riskFactors.filter((factor) => !present.has(factor)).map(({ name }) => name);
}
