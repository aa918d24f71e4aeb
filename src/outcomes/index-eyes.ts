import type { CaseReading } from "../cases/case-reading.ts";
import { columnNamed, rowCount } from "../cases/table.ts";
import { type Episode, episodesOf, fieldReader } from "./episode.ts";
import { type EyeHistory, eyeHistory, type HistorySource } from "./eye-history.ts";
import type { EyeRecord, LeftOutEye } from "./eye-record.ts";
import { followEye } from "./follow-eye.ts";
import { withLastAcuity } from "./last-acuity.ts";
import { isDatedEvent, type OutcomeRules } from "./outcome-rules.ts";
import { outcomeTable } from "./outcome-table.ts";
import { queriedLines } from "./queried-lines.ts";
import { recordedFactors, riskFactors } from "./risk-stratum.ts";
import { stoppedByReason, stoppedEyes } from "./stopped-rows.ts";
import { unreadCells } from "./unread-cells.ts";

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
  const source = historySource(reading);
  const { chosen, leftOut } = chosenEpisodes(reading, source, selection);
  const histories = chosen.map((episode) => eyeHistory(source, episode));
  const inDoubt = withRowsOfUnknownSide(reading, source, { chosen, histories });
  const timed = isDatedEvent(rules.failure);
  const { window, ...withoutWindow } = rules;
  const applied = timed ? rules : withoutWindow;
  const followed = inDoubt.map((history) => followEye(history, applied));
  const primaryRows = chosen.map((episode) => episode.rows[0] ?? 0);
  const line = (row: number): number => reading.lines[row] ?? 0;
  return {
    table: withLastAcuity(
      outcomeTable(reading.cases, primaryRows, { histories: inDoubt, followed }),
      reading.cases,
      chosen.map(({ rows }) => rows),
    ),
    time: Float64Array.from(followed, (each) => each.time),
    event: Uint8Array.from(followed, (each) => (each.event ? 1 : 0)),
    undecided: Uint8Array.from(followed, (each) => (each.undecided ? 1 : 0)),
    state: followed.map((each) => each.state),
    causes: followed.map((each, eye) => (each.event ? (inDoubt[eye]?.causes ?? []) : [])),
    patient: primaryRows.map((row) => textOf(source.read("patient", row))),
    lines: chosen.map((episode) => episode.rows.map(line)),
    timeUnit: "days",
    rules: applied,
    ...(timed && window !== undefined ? { window } : {}),
    leftOut,
    flow: {
      rowsRead: reading.rowsRead,
      rowsStopped: stoppedByReason(reading),
      rows: rowCount(reading.cases),
      rowsQueried: queriedLines(reading),
      primaryRows: chosen.length,
      laterRows: chosen.reduce((sum, episode) => sum + episode.rows.length - 1, 0),
    },
    oil: oilEyes(inDoubt),
    doubts: inDoubt.flatMap(({ doubts }, eye) => (doubts.length === 0 ? [] : [{ eye, doubts }])),
    riskFactorsAbsent: absentFactors(reading),
    daysSeen: daysSeen(reading),
    statePresumed: !hasField(reading, "status_last_seen") && !hasField(reading, "final_status"),
  };
}

function historySource(reading: CaseReading): Required<HistorySource> {
  return {
    read: fieldReader(reading.cases),
    unread: unreadCells(reading),
    has: (field) => hasField(reading, field),
  };
}

function hasField(reading: CaseReading, field: string): boolean {
  return columnNamed(reading.cases, field) !== undefined;
}

function chosenEpisodes(
  reading: CaseReading,
  source: Required<HistorySource>,
  selection: EyeSelection,
): { readonly chosen: readonly Episode[]; readonly leftOut: readonly LeftOutEye[] } {
  const { read, has } = source;
  const { episodes, without } = episodesOf({ read, has, rows: rowCount(reading.cases) });
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

/** A later operation of which the side is not recorded may have been on either eye. */
function withRowsOfUnknownSide(
  reading: CaseReading,
  { read, has }: Required<HistorySource>,
  eyes: { readonly chosen: readonly Episode[]; readonly histories: readonly EyeHistory[] },
): EyeHistory[] {
  const lastDay = new Map<string, number>();
  for (let row = 0; has("eye") && row < rowCount(reading.cases); row++) {
    const patient = textOf(read("patient", row));
    const day = read("operation_date", row);
    if (patient === null || read("eye", row) !== null || typeof day !== "number") continue;
    lastDay.set(patient, Math.max(day, lastDay.get(patient) ?? day));
  }
  return eyes.histories.map((history, eye) => {
    const patient = textOf(read("patient", eyes.chosen[eye]?.rows[0] ?? 0));
    const day = patient === null ? undefined : lastDay.get(patient);
    const failed = history.neverAttached || history.redetached !== null;
    if (day === undefined || day < history.start || failed) return history;
    const doubt = "a later operation of this patient without its side";
    return { ...history, doubts: [...history.doubts, doubt] };
  });
}

function oilEyes(histories: readonly EyeHistory[]): NonNullable<EyeRecord["oil"]> {
  const having = (test: (history: EyeHistory) => boolean): number[] =>
    histories.flatMap((history, eye) => (test(history) ? [eye] : []));
  return {
    eyes: having(({ oilInserted }) => oilInserted !== null),
    stillIn: having(({ oilStillIn }) => oilStillIn),
  };
}

const dayFields = [
  "operation_date",
  "last_seen_date",
  "redetachment_date",
  "reoperation_date",
  "death_date",
];

function daysSeen(reading: CaseReading): number[] {
  return dayFields
    .flatMap((field) => columnNamed(reading.cases, field)?.values ?? [])
    .filter((day) => typeof day === "number")
    .sort((a, b) => a - b);
}

function absentFactors(reading: CaseReading): string[] {
  const present = new Set(recordedFactors((field) => hasField(reading, field)));
  return riskFactors.filter((factor) => !present.has(factor)).map(({ name }) => name);
}

function textOf(value: unknown): string | null {
  return value === null ? null : String(value);
}
