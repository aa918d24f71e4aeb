import type { Problem } from "../../problem/problem.ts";
import type { LeftOutRow } from "../case-reading.ts";
import { placeOf } from "../row-places.ts";
import type { UncheckedCases } from "../unchecked-cases.ts";
import type { JoinedCases } from "./joined-cases.ts";
import { type Decide, mergeRows } from "./merge-rows.ts";
import { type NoOperation, OperationFinder } from "./operation-of-visit.ts";
import { valuesIn } from "./row-keys.ts";

/**
 * Lays a file of follow-up over the operations: a row for each eye or for each visit, known by
 * case, or by patient and eye (and day of operation). What the last visit found moves forward with
 * the later visit; what else is missing is filled in; where a known value differs, it is kept and
 * the difference is a query. A row that belongs to no operation is left out with its reason.
 */
export function followUpCases(first: UncheckedCases, second: UncheckedCases): JoinedCases {
  const finder = new OperationFinder(first, second);
  const found = [...second.rows.lines.keys()].map((row) => finder.operationOf(row));
  const partners = found.map((operation) => (typeof operation === "number" ? operation : "out"));
  const order = byVisit(second);
  const decide = decideBy(latestVisits(first, second, { partners, order }));
  const merged = mergeRows({ first, second }, { partners, order }, decide);
  const out = found.flatMap((operation, row) =>
    typeof operation === "number" ? [] : [leftOut(operation, second, row)],
  );
  return {
    ...merged,
    leftOut: out.map(({ row }) => row),
    problems: [...merged.problems, ...out.map(({ problem }) => problem)],
  };
}

/** What is found anew at each visit: it goes with the latest. */
const ofVisit: ReadonlySet<string> = new Set([
  "last_seen_date",
  "status_last_seen",
  "final_status",
  "operations_total",
  "acuity_after",
  "acuity_after_written",
  "acuity_after_date",
  "complication",
]);

function decideBy(isLatest: ReadonlySet<number>): Decide {
  return ({ field, earlier, later, row }) => {
    if (later === null) return { value: earlier };
    if (earlier === null) return { value: later };
    if (field === "case") return { value: earlier };
    if (ofVisit.has(field)) return { value: isLatest.has(row) ? later : earlier };
    return { value: earlier, query: followUpDiffers };
  };
}

const followUpDiffers = {
  code: "follow-up-differs",
  message: "the follow-up says otherwise than the file of operations, whose value is kept.",
  remedy: "check which is right, and correct the other",
};

/** Rows in the order of their visits; those without a day are as of now. */
function byVisit(second: UncheckedCases): readonly number[] {
  const seen = valuesIn(second, "last_seen_date");
  const dayOf = (row: number) => (seen(row) as number | null) ?? Number.POSITIVE_INFINITY;
  const rows = [...second.rows.lines.keys()];
  return rows.sort((one, other) => (dayOf(one) < dayOf(other) ? -1 : 1));
}

/** Rows of the follow-up that are no earlier than what is known when their turn comes. */
function latestVisits(
  first: UncheckedCases,
  second: UncheckedCases,
  pairing: { readonly partners: readonly (number | "out")[]; readonly order: readonly number[] },
): ReadonlySet<number> {
  const known = valuesIn(first, "last_seen_date");
  const seen = valuesIn(second, "last_seen_date");
  const latest = new Set<number>();
  for (const row of pairing.order) {
    const partner = pairing.partners[row];
    if (typeof partner !== "number") continue;
    const [before, day] = [known(partner), seen(row)];
    if (before === null || day === null || day >= before) latest.add(row);
  }
  return latest;
}

function leftOut(
  { code, reason, remedy }: NoOperation,
  second: UncheckedCases,
  row: number,
): { readonly row: LeftOutRow; readonly problem: Problem } {
  const { file, line } = placeOf(second.rows, row);
  return {
    row: { file, line, code, reason },
    problem: {
      code,
      severity: "stop",
      place: { file, line },
      message: `this row of follow-up is left out: ${reason}.`,
      expected: "the case, or the patient and eye, of an operation in the file of operations",
      remedy,
    },
  };
}
