import { columnNamed } from "../../cases/table.ts";
import { type EyeRecord, isTimed } from "../../outcomes/eye-record.ts";
import type { Caution } from "../answer.ts";
import { counted } from "./wording.ts";

/**
 * Eyes found detached at a visit with no day of redetachment beside it. Their failure stands on the
 * day of that visit, as in every curve of what is found at visits; where the visit came late, the eye
 * counts until then as attached, also at a window's end before it.
 */
export function failuresDatedByVisit(record: EyeRecord): Caution[] {
  if (record.rules?.failure !== "redetachment" || !isTimed(record)) return [];
  const eyes = Array.from(record.time, (_, eye) => eye).filter(isUndated(record));
  if (eyes.length === 0) return [];
  return [
    {
      code: "failures-dated-by-visit",
      text: `${counted(eyes.length, "eye was", "eyes were")} found detached at a visit with no day of redetachment recorded: the failure is put on the day of that visit, and may have come earlier, within the window too.`,
    },
  ];
}

function isUndated({ table, time, event }: EyeRecord): (eye: number) => boolean {
  const read = (name: string) => columnNamed(table, name)?.values ?? [];
  const [status, redetached, never] = [
    read("status_last_seen"),
    read("redetachment_date"),
    read("never_attached"),
  ];
  const [seen, operated] = [read("last_seen_date"), read("operation_date")];
  return (eye) => {
    if (status[eye] !== "detached" || redetached[eye] != null || never[eye] === true) return false;
    // An eye that failed on another day did so by what is recorded of that day.
    return event[eye] === 0 || time[eye] === Number(seen[eye]) - Number(operated[eye]);
  };
}
