import type { CellValue } from "../../src/cases/table.ts";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { casesValue, workedOut } from "./ask.ts";

export type Row = Record<string, CellValue>;
export type GroupOfEyes = Row & { failed: number; attached: number; lost?: number };

/** Rows: `failed` eyes redetached on day 40, `attached` seen for 400 days, `lost` after 50. */
export function rowsOfGroups(groups: readonly GroupOfEyes[]): Row[] {
  let patient = 0;
  return groups.flatMap(({ failed, attached, lost = 0, ...over }) => {
    const eye = (last: number, more: Row = {}): Row => {
      patient += 1;
      return primary({
        patient: `P${patient}`,
        status_last_seen: "attached",
        last_seen_date: 1000 + last,
        ...over,
        ...more,
      });
    };
    return [
      ...Array.from({ length: failed }, () => eye(300, { redetachment_date: 1040 })),
      ...Array.from({ length: attached }, () => eye(400)),
      ...Array.from({ length: lost }, () => eye(50)),
    ];
  });
}

/** The same as the sheet's `eyes`, followed for 12 months unless said. */
export function eyesOf(rows: readonly Row[], within = "within: 12 months") {
  const cases = casesValue(casesOf(rows));
  return workedOut(`index_eyes(cases, ${within})`, { cases });
}

export function groupsOfEyes(groups: readonly GroupOfEyes[]) {
  return eyesOf(rowsOfGroups(groups));
}
