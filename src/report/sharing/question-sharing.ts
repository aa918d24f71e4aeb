/**
 * What of an answer may leave the department where its counts may.
 *
 * `figures by row`: a rate or an interval follows from the counts of its row and the totals.
 * `figures of a whole table`: they follow from counts all over the table. `curve`: they follow
 * from the failures up to a day. `counts`: figures rest on counts that are not shown, so that
 * they stay. `no cases`: worked out from what was typed alone. `none`: the answer lists or follows
 * single eyes or one person. A question that is not named here stays.
 */
export type Sharing =
  | "figures by row"
  | "figures of a whole table"
  | "curve"
  | "counts"
  | "no cases"
  | "none";

export function sharingOf(question: string): Sharing {
  return sharings.get(question) ?? "none";
}

/** Whether rates and intervals of such an answer may be shown at all. */
export function hasFigures(sharing: Sharing): boolean {
  return (
    sharing === "figures by row" || sharing === "figures of a whole table" || sharing === "curve"
  );
}

const sharings: ReadonlyMap<string, Sharing> = new Map([
  ["failure_rate", "figures by row"],
  ["failure_causes", "figures by row"],
  ["standard", "figures by row"],
  ["periods", "figures by row"],
  ["count_by", "figures by row"],
  ["suitability", "figures by row"],
  ["clock_hours", "figures by row"],
  ["rate_difference", "figures of a whole table"],
  ["curve_comparison", "figures of a whole table"],
  ["hazard_model", "figures of a whole table"],
  ["risk_model", "figures of a whole table"],
  ["standardised_rate", "figures of a whole table"],
  ["after_failure", "figures of a whole table"],
  ["attachment_curve", "curve"],
  ["definitions", "counts"],
  ["failure_incidence", "counts"],
  ["follow_up", "counts"],
  ["case_flow", "counts"],
  ["acuity_change", "counts"],
  ["completeness", "counts"],
  ["observed_expected", "counts"],
  ["enough_cases", "no cases"],
]);
