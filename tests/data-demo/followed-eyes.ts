import { dayOf } from "../../data-demo/theatre-day.ts";
import { type FileRow, rowsByEye } from "./file-rows.ts";

/** An eye's primary repair and how it went, read from the file alone. */
export interface FollowedEye {
  readonly primary: FileRow;
  readonly failed: boolean;
  /** Days from the primary repair to the failure, or to the last visit. */
  readonly days: number;
  readonly causes: readonly string[];
}

/**
 * Each eye to its redetachment (day 0 where it never attached) or to its last visit. Planned oil
 * removal does not end the first course: a redetachment after it counts.
 */
export function followedEyes(rows: readonly FileRow[]): readonly FollowedEye[] {
  return [...rowsByEye(rows).values()].map((operations) => {
    const primary = operations[0]!;
    const second = operations[1];
    const course = second?.technique === "oil removal" ? [primary, second] : [primary];
    const start = dayOf(primary.operation_date!);
    const failing = course.find((row) => row.redetachment_date !== "");
    const never = primary.never_attached === "yes";
    const end = failing?.redetachment_date ?? course.at(-1)!.last_seen_date!;
    const days = never || end === "" ? 0 : dayOf(end) - start;
    const causes = (failing ?? primary).failure_cause!.split(";").filter((cause) => cause !== "");
    return { primary, failed: never || failing !== undefined, days, causes };
  });
}
