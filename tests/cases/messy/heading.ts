import type { TrueField } from "./clean-truth.ts";
import type { Mess } from "./mess.ts";

const others: Partial<Record<TrueField, string>> = {
  case: "Record ID",
  patient: "Hospital Number",
  eye: "Laterality",
  operation_date: "Date of Surgery",
  surgeon: "Operating surgeon",
  lens: "Lens status",
  symptom_days: "Duration of symptoms (days)",
  break_type: "Type of break",
  break_clock_hours: "Break position",
  pvr_grade: "PVR stage",
  axial_length: "AL (mm)",
  refraction: "Spherical equivalent",
  acuity_before: "Preop VA",
  technique: "Procedure",
  tamponade: "Tamponade agent",
  last_seen_date: "Date of last visit",
  status_last_seen: "Anatomical status",
  redetachment_date: "Date of failure",
};

/** A heading in the department's way; bare numbers of acuity say there what they are. */
export function headingOf(field: TrueField, mess: Mess): string {
  const heading = styled(field, mess);
  if (field !== "acuity_before" || !mess.acuity.startsWith("bare")) return heading;
  return `${heading} (${mess.acuity.replace("bare ", "")})`;
}

function styled(field: TrueField, { headings }: Mess): string {
  if (headings === "capitals") return field.replaceAll("_", " ").toUpperCase();
  if (headings === "camelCase") {
    return field.replaceAll(/_(\w)/g, (_, letter: string) => letter.toUpperCase());
  }
  if (headings === "other") return others[field] ?? field;
  return headings === "typed wrong" && field === "technique" ? "tecnique" : field;
}
