/**
 * Events and numbers at risk by group at each event time, within each stratum. Whole days are counted
 * in one table for all strata; times of any other kind are sorted in each stratum.
 */
import { requireSameLength } from "./argument-checks.ts";
import { gather, gatherWhole } from "./gather.ts";
import { type GroupCodes, rowsByCode } from "./group-codes.ts";
import {
  type CheckedRows,
  type GroupedFollowUp,
  type GroupRiskSets,
  groupRiskSets,
} from "./group-risk-sets.ts";
import { wholeDayRiskSets } from "./whole-day-risk-sets.ts";
import { eventBytes, wholeDays } from "./whole-days.ts";

/** The counts of each stratum, in the order of the strata's labels; of all rows without strata. */
export function stratifiedRiskSets(
  followUp: GroupedFollowUp,
  strata: GroupCodes | undefined,
): GroupRiskSets[] {
  const { time, event, entry, groups } = followUp;
  requireSameLength({ time, event, entry, group: groups.codes, stratum: strata?.codes });
  const rows = {
    time,
    event: eventBytes(event),
    groups,
    ...(entry === undefined ? {} : { entry }),
  };
  const whole = entry === undefined ? wholeDays(time) : undefined;
  const tabled =
    whole && wholeDayRiskSets({ ...whole, events: rows.event, groups, ...(strata && { strata }) });
  if (tabled !== undefined) return tabled;
  if (strata === undefined) return [groupRiskSets(rows)];
  return rowsByCode(strata).map((members) => groupRiskSets(rowsOf(rows, members)));
}

function rowsOf({ time, event, entry, groups }: CheckedRows, rows: Int32Array): CheckedRows {
  return {
    time: gather(time, rows),
    event: new Uint8Array(gatherWhole(event, rows)),
    ...(entry === undefined ? {} : { entry: gather(entry, rows) }),
    groups: { labels: groups.labels, codes: gatherWhole(groups.codes, rows) },
  };
}
