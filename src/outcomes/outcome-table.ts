import { rowsOf, type Table, type TableColumn, withColumns } from "../cases/table.ts";
import { fieldReader } from "./episode.ts";
import type { EyeHistory } from "./eye-history.ts";
import type { Followed } from "./follow-eye.ts";
import { recordedFactors, riskOfEye, riskStrata } from "./risk-stratum.ts";

/** Columns that outcomes make: they are worked out, not recorded. */
export const madeByOutcomes: ReadonlySet<string> = new Set([
  ...["time", "event", "state", "cause", "operations", "risk_factors", "risk_stratum"],
  ...["last_acuity", "last_acuity_written", "last_acuity_date"],
]);

type NewColumn = Omit<TableColumn, "id">;

/**
 * One row an eye: the columns of its primary repair, and beside them its outcome and its risk. A
 * column of the file that bears one of these names gives way to it.
 */
export function outcomeTable(
  cases: Table,
  primaryRows: readonly number[],
  eyes: { readonly histories: readonly EyeHistory[]; readonly followed: readonly Followed[] },
): Table {
  const table = rowsOf(cases, primaryRows);
  const outcomes = outcomeColumns(eyes.histories, eyes.followed);
  return withColumns(table, [...outcomes, ...riskColumns(table)]);
}

function outcomeColumns(
  histories: readonly EyeHistory[],
  followed: readonly Followed[],
): NewColumn[] {
  const causes = followed.map(({ event }, eye) => (event ? (histories[eye]?.causes ?? []) : []));
  return [
    {
      name: "time",
      label: "follow-up",
      kind: "number",
      unit: "days",
      values: followed.map((each) => each.time),
    },
    {
      name: "event",
      label: "failed",
      kind: "truth",
      values: followed.map((each) => (each.undecided ? null : each.event)),
    },
    {
      name: "state",
      label: "state at end of follow-up",
      kind: "code",
      values: followed.map((each) => each.state),
    },
    {
      name: "cause",
      label: "cause of failure",
      kind: "codes",
      values: causes.map((each) => (each.length === 0 ? null : each)),
    },
    {
      name: "operations",
      label: "operations on the eye",
      kind: "number",
      values: histories.map((history) => history.operations),
    },
  ];
}

function riskColumns(eyes: Table): NewColumn[] {
  const read = fieldReader(eyes);
  const factors = recordedFactors((field) => eyes.positions.has(field));
  const risks = Array.from({ length: eyes.columns[0]?.values.length ?? 0 }, (_, eye) =>
    riskOfEye(read, eye, factors),
  );
  return [
    {
      name: "risk_factors",
      label: "risk factors for PVR",
      kind: "number",
      values: risks.map((risk) => risk.present.length),
    },
    {
      name: "risk_stratum",
      label: "risk of PVR",
      kind: "code",
      order: riskStrata,
      values: risks.map((risk) => risk.stratum),
    },
  ];
}
