import type { CaseReading } from "../cases/case-reading.ts";
import { columnNamed, rowCount } from "../cases/table.ts";
import { type Episode, episodesOf, fieldReader, type NoEpisode } from "./episode.ts";
import { type EyeHistory, eyeHistory, type HistorySource } from "./eye-history.ts";
import { queriedLines } from "./queried-lines.ts";
import { unreadCells } from "./unread-cells.ts";

/** What cases tell of their eyes before any eye is chosen and any definition of failure applied. */
export interface EyesInCases {
  readonly source: Required<HistorySource>;
  readonly episodes: readonly Episode[];
  readonly without: readonly NoEpisode[];
  /** Of every episode. */
  readonly histories: ReadonlyMap<Episode, EyeHistory>;
  readonly rowsQueried: readonly number[];
  /** Every day on which an eye was seen or operated on, or a patient died, in order. */
  readonly daysSeen: readonly number[];
}

const known = new WeakMap<CaseReading, EyesInCases>();

/** Worked out once for each reading: a sheet asks again whenever a setting of it changes. */
export function eyesInCases(reading: CaseReading): EyesInCases {
  const found = known.get(reading) ?? findEyes(reading);
  known.set(reading, found);
  return found;
}

function findEyes(reading: CaseReading): EyesInCases {
  const source = historySource(reading);
  const { read, has } = source;
  const { episodes, without } = episodesOf({ read, has, rows: rowCount(reading.cases) });
  const histories = withRowsOfUnknownSide(reading, source, episodes);
  return {
    ...{ source, episodes, without, histories },
    rowsQueried: queriedLines(reading),
    daysSeen: daysSeen(reading),
  };
}

function historySource(reading: CaseReading): Required<HistorySource> {
  return {
    read: fieldReader(reading.cases),
    unread: unreadCells(reading),
    has: (field) => columnNamed(reading.cases, field) !== undefined,
  };
}

/** The histories; a later operation of which the side is not recorded may have been on either eye. */
function withRowsOfUnknownSide(
  reading: CaseReading,
  source: Required<HistorySource>,
  episodes: readonly Episode[],
): ReadonlyMap<Episode, EyeHistory> {
  const { read, has } = source;
  const lastDay = new Map<string, number>();
  for (let row = 0; has("eye") && row < rowCount(reading.cases); row++) {
    const patient = textOf(read("patient", row));
    const day = read("operation_date", row);
    if (patient === null || read("eye", row) !== null || typeof day !== "number") continue;
    lastDay.set(patient, Math.max(day, lastDay.get(patient) ?? day));
  }
  const histories = episodes.map((episode): [Episode, EyeHistory] => {
    const history = eyeHistory(source, episode);
    const patient = textOf(read("patient", episode.rows[0] ?? 0));
    const day = patient === null ? undefined : lastDay.get(patient);
    const failed = history.neverAttached || history.redetached !== null;
    if (day === undefined || day < history.start || failed) return [episode, history];
    const doubt = "a later operation of this patient without its side";
    return [episode, { ...history, doubts: [...history.doubts, doubt] }];
  });
  return new Map(histories);
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

/** A value as text; null where missing. */
export function textOf(value: unknown): string | null {
  return value === null ? null : String(value);
}
