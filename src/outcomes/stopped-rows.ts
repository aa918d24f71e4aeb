import type { CaseReading } from "../cases/case-reading.ts";
import type { Episode, FieldReader } from "./episode.ts";
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

/** A row that says again what another says can be stopped without a loss to the eye. */
const saidTwice = "same-operation-twice";

/** Whether an episode is of an eye of which another row was stopped. */
export function stoppedEyes(
  reading: CaseReading,
): (read: FieldReader, episode: Episode) => boolean {
  const stopped = new Set(
    reading.leftOut.flatMap(({ code, patient, eye }) =>
      patient === undefined || code === saidTwice ? [] : [`${patient}\n${eye ?? ""}`],
    ),
  );
  return (read, episode) => {
    const row = episode.rows[0] ?? 0;
    const patient = String(read("patient", row) ?? "");
    return stopped.has(`${patient}\n${read("eye", row) ?? ""}`) || stopped.has(`${patient}\n`);
  };
}
