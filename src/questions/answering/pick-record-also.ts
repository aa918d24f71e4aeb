import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { PickRecord } from "../answer.ts";
import { pickRecord } from "./answered-eyes.ts";

/** What a question says of each eye beyond what every question says. */
export interface SaidAlso {
  readonly headings: readonly string[];
  /** One text a heading. */
  readonly texts: (eye: number) => readonly string[];
}

/** The eyes of a record, described as ever and with what the question adds. */
export function pickRecordAlso(record: EyeRecord, also: SaidAlso): PickRecord {
  const plain = pickRecord(record);
  return {
    describe: (rows) => {
      const picked = plain.describe(rows);
      return {
        headings: [...picked.headings, ...also.headings],
        rows: picked.rows.map((row, position) => ({
          lines: row.lines,
          texts: [...row.texts, ...also.texts(rows[position] ?? 0)],
        })),
      };
    },
  };
}
