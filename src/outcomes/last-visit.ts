import type { FieldReader } from "./episode.ts";

/** The last visit on the record, in whole days from the primary repair. */
export interface LastVisit {
  /** Last day the eye was seen; 0 where it was never seen after the primary repair. */
  readonly lastSeen: number;
  /**
   * How it stood then: a code of `status_last_seen`; null where that is not recorded. A state
   * recorded at an earlier visit does not stand for a later one.
   */
  readonly status: string | null;
  /** The state recorded last, whatever its day, for definitions that are read at the last visit. */
  readonly lastStatus: string | null;
}

interface VisitSource {
  readonly read: FieldReader;
  readonly unread: (field: string, row: number) => boolean;
  readonly has: (field: string) => boolean;
  readonly rows: readonly number[];
  readonly since: (field: string, row: number) => number | null;
}

interface Visit {
  readonly day: number;
  readonly status: string | null;
}

/**
 * Every visit and every operation is a day on which the eye was seen; of several on one day the
 * later row's counts. In a file without any column for the state, an eye seen with nothing said
 * of a detachment is taken as attached.
 */
export function lastVisit(source: VisitSource): LastVisit {
  const { read, has, rows } = source;
  const silentFile = !has("status_last_seen") && !has("final_status");
  const visits = rows.flatMap((row) => visitsOf(source, row));
  const last = visits.reduce((a, b) => (b.day >= a.day ? b : a), { day: 0, status: null });
  const stated = rows.map((row) => statusOf(read, row)).filter((status) => status !== null);
  const presumed = silentFile && last.day > 0 ? "attached" : null;
  return {
    lastSeen: last.day,
    status: last.status ?? presumed,
    lastStatus: last.status ?? stated.at(-1) ?? presumed,
  };
}

/** The days a row says the eye was seen, with the state on that of its last visit. */
function visitsOf({ read, since }: VisitSource, row: number): Visit[] {
  const visit = (field: string, status: string | null): Visit[] => {
    const day = since(field, row);
    return day === null ? [] : [{ day, status }];
  };
  return [
    ...visit("operation_date", null),
    ...visit("redetachment_date", "detached"),
    ...visit("reoperation_date", null),
    ...visit("last_seen_date", statusOf(read, row)),
  ];
}

function statusOf(read: FieldReader, row: number): string | null {
  const status = read("final_status", row) ?? read("status_last_seen", row);
  return typeof status === "string" ? status : null;
}
