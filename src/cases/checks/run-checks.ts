import { caseTwice } from "./case-twice.ts";
import type { CasesToCheck, Check, Finding } from "./check.ts";
import { eventAfterLastSeen } from "./days-against-last-seen.ts";
import {
  eventBeforeOperation,
  lastSeenBeforeOperation,
  laterDayBeforeOperation,
} from "./days-against-operation.ts";
import { eyeNotKnown } from "./eye-not-known.ts";
import { failureWithoutDate } from "./failure-without-date.ts";
import { laterOperationWithoutFirst, operationsOutOfOrder } from "./operation-order.ts";
import { redetachmentBeforeReoperation } from "./redetachment-before-reoperation.ts";
import { sameOperationTwice } from "./same-operation-twice.ts";
import { attachedAfterRedetachment, detachedWithoutDate } from "./status-and-dates.ts";
import { gasWhereUnsuitable, oilUnaccounted } from "./tamponade.ts";

/** Leave a row out, and count it with its reason. */
const stopping: readonly Check[] = [
  eventBeforeOperation,
  lastSeenBeforeOperation,
  sameOperationTwice,
];

/** Keep a row, and list it. */
const querying: readonly Check[] = [
  eyeNotKnown,
  caseTwice,
  laterDayBeforeOperation,
  redetachmentBeforeReoperation,
  eventAfterLastSeen,
  laterOperationWithoutFirst,
  operationsOutOfOrder,
  detachedWithoutDate,
  attachedAfterRedetachment,
  failureWithoutDate,
  oilUnaccounted,
  gasWhereUnsuitable,
];

/** What stops rows: the first finding of each row, in the order of rows. */
export function stoppingFindings(cases: CasesToCheck): readonly Finding[] {
  const byRow = new Map<number, Finding>();
  for (const finding of run(stopping, cases)) {
    if (!byRow.has(finding.row)) byRow.set(finding.row, finding);
  }
  return [...byRow.values()].sort((one, other) => one.row - other.row);
}

/** What is listed of the rows that are kept. */
export function queryFindings(cases: CasesToCheck): readonly Finding[] {
  return run(querying, cases);
}

function run(checks: readonly Check[], cases: CasesToCheck): readonly Finding[] {
  return checks.flatMap((check) => check(cases));
}
