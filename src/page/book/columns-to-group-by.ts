import { isHandedOver } from "../../report/pooling/is-handed-over.ts";
import type { CaseColumn } from "../cases-protocol.ts";

/** By technique and by risk a department groups its eyes in any case. */
const usual: readonly string[] = ["technique", "risk_stratum"];

/** The columns by which a department may group the eyes that it hands over, besides the usual. */
export function columnsToGroupBy(columns: readonly CaseColumn[]): readonly CaseColumn[] {
  return columns.filter((column) => isHandedOver(column) && !usual.includes(column.name));
}
