import type { FieldReader } from "./episode.ts";

/** What a later operation on the eye says about the detachment. */
export type FurtherOperation = "for the detachment" | "not for it" | "cannot be told";

/** Operations that are done for a detached retina. */
const repairs = new Set([
  "scleral buckle",
  "vitrectomy",
  "vitrectomy with buckle",
  "pneumatic retinopexy",
  "buckle revision",
  "gas injection",
]);

/**
 * Whether a later operation was for the detachment. A repair is; removing oil is not. Laser or
 * cryo alone, another operation, or one whose technique is not recorded is taken as one where the
 * eye was detached before it, as none where it was attached, and cannot be told otherwise.
 */
export function furtherOperation(
  read: FieldReader,
  row: number,
  stateBefore: string | null,
): FurtherOperation {
  const technique = read("technique", row);
  if (technique === "oil removal") return "not for it";
  if (typeof technique === "string" && repairs.has(technique)) return "for the detachment";
  if (stateBefore === "detached") return "for the detachment";
  return stateBefore === "attached" ? "not for it" : "cannot be told";
}
