/** What cannot be said of a row in which a field is missing; empty for fields of little weight. */
export function whatItCosts(field: string): string {
  return costs.get(field) ?? "";
}

const costs: ReadonlyMap<string, string> = new Map([
  ["patient", "the eye cannot be followed through its operations"],
  ["eye", "the eye cannot be followed through its operations"],
  ["operation_date", "the eye cannot be followed at all"],
  ["last_seen_date", "follow-up ends at the last dated event"],
  ["status_last_seen", "the outcome is not known"],
  ["redetachment_date", "the day of the failure is not known"],
  ["failure_cause", "why it failed is not known"],
  ["technique", "the eye stands in no comparison of techniques"],
  ["surgeon", "the eye counts for no surgeon"],
  ["surgeon_grade", "no comparison by grade"],
  ["supervision", "no comparison by supervision"],
  ["macula", "no comparison by macula, and acuity is hard to read"],
  ["acuity_before", "no change of acuity"],
  ["acuity_after", "no change of acuity"],
  ["acuity_after_date", "when acuity was measured is not known"],
  ["tamponade", "oil cannot be told from gas"],
  ["pvr_grade", "the risk of scarring is not known"],
  ["quadrants_detached", "the risk of scarring is not known"],
  ["vitreous_haemorrhage", "the risk of scarring is not known"],
  ["smoker", "the risk of scarring is not known"],
  ["lens", "the risk of scarring is not known"],
  ["uveitis", "the risk of scarring is not known"],
  ["break_type", "the risk of scarring is not known"],
  ["choroidal_detachment", "the risk of scarring is not known"],
]);
