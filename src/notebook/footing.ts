import { dayNumber, dayText, isPossible, readDay } from "../formula/calendar.ts";

/**
 * What a minuted number rested on, so that it can be said later why it moved. It holds counts and
 * short digests, and nothing of a case.
 */
export interface Footing {
  readonly rows: RowsOfFooting;
  /** Corrections that lay over the file. */
  readonly corrections: number;
  /** By cell, a digest of its working: the minuted cell and all that feed it. */
  readonly workings: ReadonlyMap<string, string>;
  /** Of the software. */
  readonly version: string;
}

export interface RowsOfFooting {
  readonly count: number;
  /** The last day of an operation, in whole days since 1970-01-01; null where none is known. */
  readonly lastDay: number | null;
  /** Of the values in those rows, in whatever order they stand. */
  readonly digest: string;
}

/**
 * As it stands in a notebook, between square brackets:
 * `540 rows to 2026-02-27, 3f9a2c71b0d4; 2 corrections; eyes 55aa01, how_often 8d11aa; version 0.3.0`.
 */
export function writeFooting({ rows, corrections, workings, version }: Footing): string {
  const to = rows.lastDay === null ? "" : ` to ${dayText(rows.lastDay)}`;
  return [
    `${rows.count} rows${to}, ${rows.digest}`,
    ...(corrections === 0 ? [] : [`${corrections} corrections`]),
    [...workings].map(([cell, digest]) => `${cell} ${digest}`).join(", "),
    `version ${version}`,
  ].join("; ");
}

/** The inverse of `writeFooting`; null where the text is none. */
export function readFooting(text: string): Footing | null {
  const parts = text.split(";").map((part) => part.trim());
  const rows = readRows(parts[0] ?? "");
  const version = /^version (\S+)$/.exec(parts.at(-1) ?? "")?.[1];
  const corrected = /^(\d+) corrections$/.exec(parts[1] ?? "")?.[1];
  const workings = parts.slice(corrected === undefined ? 1 : 2, -1);
  const read = workings.length === 1 ? readWorkings(workings[0]!) : null;
  if (rows === null || version === undefined || read === null) return null;
  return { rows, corrections: Number(corrected ?? 0), workings: read, version };
}

function readRows(text: string): RowsOfFooting | null {
  const [, count, to, digest] =
    /^(\d+) rows(?: to (\d{4}-\d{2}-\d{2}))?, ([0-9a-f]+)$/.exec(text) ?? [];
  if (count === undefined || digest === undefined) return null;
  const parts = to === undefined ? null : readDay(to);
  if (to !== undefined && (parts === null || !isPossible(parts))) return null;
  return { count: Number(count), lastDay: parts === null ? null : dayNumber(parts), digest };
}

function readWorkings(text: string): ReadonlyMap<string, string> | null {
  const pairs = text.split(",").map((pair) => /^(\S+) ([0-9a-f]+)$/.exec(pair.trim()));
  if (pairs.some((pair) => pair === null)) return null;
  return new Map(pairs.map((pair) => [pair![1]!, pair![2]!]));
}
