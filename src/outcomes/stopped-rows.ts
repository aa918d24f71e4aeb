import type { CaseReading } from "../cases/case-reading.ts";
import type { RecordFlow } from "./eye-record.ts";

/** The rows that a check stopped, gathered by reason in order of first appearance. */
export function stoppedByReason(reading: CaseReading): RecordFlow["rowsStopped"] {
  const byReason = new Map<string, number[]>();
  for (const { reason, line } of reading.leftOut) {
    const lines = byReason.get(reason);
    if (lines === undefined) byReason.set(reason, [line]);
    else lines.push(line);
  }
  return [...byReason].map(([reason, lines]) => ({ reason, lines }));
}
