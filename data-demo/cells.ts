import { formatDay } from "../src/cases/calendar-day.ts";
import { writeAcuity } from "./acuity.ts";
import type { EyeBefore } from "./eye-before.ts";
import type { FollowedOperation } from "./operation.ts";

/** One row of the file as written, by field of the dictionary; a field not held is empty. */
export type Cells = Readonly<Record<string, string>>;

/**
 * Columns in the order of the file. Most headings are the dictionary's own; a few are the
 * department's, as departments have them.
 */
export const headings: readonly (readonly [field: string, heading: string])[] = [
  ...["case", "patient", "eye"].map(same),
  ["operation_date", "date of operation"],
  ...["operation_number", "centre"].map(same),
  ["surgeon", "Surgeon"],
  ...["surgeon_grade", "supervision", "supervisor", "age", "sex", "smoker"].map(same),
  ["lens", "lens status"],
  ...["media_opacity", "pvd", "symptom_days", "macula", "macula_off_days"].map(same),
  ...["clock_hours_detached", "quadrants_detached", "break_type", "break_count"].map(same),
  ...["break_clock_hours", "posterior_break", "lattice", "vitreous_haemorrhage"].map(same),
  ...["pvr_grade", "pvr_clock_hours", "pvr_zone", "choroidal_detachment", "uveitis"].map(same),
  ...["previous_cryotherapy", "previous_vitrectomy", "trauma", "hypotony"].map(same),
  ...["axial_length", "refraction", "gas_unsuitable"].map(same),
  ["acuity_before", "preop VA"],
  ...["technique", "buckle_element", "retinopexy", "subretinal_drainage"].map(same),
  ...["heavy_liquid", "vitreous_base_trim", "membrane_peel", "retinectomy"].map(same),
  ...["lens_removed", "tamponade", "gas_percent", "operative_complication"].map(same),
  ...["last_seen_date", "status_last_seen", "redetachment_date", "never_attached"].map(same),
  ...["failure_cause", "oil_removed_date", "death_date"].map(same),
  ["acuity_after", "postop VA"],
  ...["acuity_after_date", "complication", "notes"].map(same),
];

function same(field: string): readonly [string, string] {
  return [field, field];
}

/** A whole row as it would stand if nothing had been left blank. */
export function cellsOf(operation: FollowedOperation, caseId: string): Cells {
  return {
    case: caseId,
    ...whoAndWhen(operation),
    ...eyeCells(operation.eye),
    ...(operation.technique === "oil removal" ? flatUnderOil : detachmentCells(operation.eye)),
    ...operationCells(operation),
    ...outcomeCells(operation),
  };
}

function whoAndWhen({ patient, eye, day, number, team }: FollowedOperation): Cells {
  return {
    patient: patient.code,
    eye: eye.side,
    operation_date: formatDay(day),
    operation_number: String(number),
    centre: "Saltmarsh",
    surgeon: team.surgeon,
    surgeon_grade: team.grade,
    supervision: team.supervision,
    supervisor: team.supervisor ?? "",
    age: String(eye.age),
    sex: patient.sex,
    smoker: patient.smoker,
  };
}

function eyeCells(eye: EyeBefore): Cells {
  return {
    lens: eye.lens,
    media_opacity: yesNo(eye.mediaOpacity),
    pvd: eye.pvd,
    lattice: eye.lattice,
    choroidal_detachment: yesNo(eye.choroidalDetachment),
    uveitis: yesNo(eye.uveitis),
    previous_cryotherapy: yesNo(eye.previousCryotherapy),
    previous_vitrectomy: yesNo(eye.previousVitrectomy),
    trauma: yesNo(eye.trauma),
    hypotony: yesNo(eye.hypotony),
    axial_length: eye.axialLength.toFixed(2),
    refraction: eye.refraction === null ? "" : eye.refraction.toFixed(2),
    gas_unsuitable: yesNo(eye.gasUnsuitable),
    acuity_before: writeAcuity(eye.acuity),
  };
}

function detachmentCells(eye: EyeBefore): Cells {
  return {
    symptom_days: String(eye.symptomDays),
    macula: eye.macula,
    macula_off_days: orBlank(eye.maculaOffDays),
    clock_hours_detached: String(eye.clockHoursDetached),
    quadrants_detached: String(Math.ceil(eye.clockHoursDetached / 3)),
    break_type: eye.breaks.types.join(";"),
    break_count: String(eye.breaks.count),
    break_clock_hours: eye.breaks.clockHours.join(";"),
    posterior_break: yesNo(eye.breaks.posterior),
    vitreous_haemorrhage: yesNo(eye.vitreousHaemorrhage),
    pvr_grade: eye.pvr.grade,
    pvr_clock_hours: orBlank(eye.pvr.clockHours),
    pvr_zone: eye.pvr.zone ?? "",
  };
}

/** On the day oil comes out nothing is detached: those columns stay blank. */
const flatUnderOil: Cells = {};

function operationCells({ technique, details }: FollowedOperation): Cells {
  return {
    technique,
    buckle_element: details.buckleElements.join(";"),
    retinopexy: details.retinopexy,
    subretinal_drainage: yesNo(details.subretinalDrainage),
    heavy_liquid: yesNo(details.heavyLiquid),
    vitreous_base_trim: yesNo(details.vitreousBaseTrim),
    membrane_peel: yesNo(details.membranePeel),
    retinectomy: yesNo(details.retinectomy),
    lens_removed: yesNo(details.lensRemoved),
    tamponade: details.tamponade,
    gas_percent: orBlank(details.gasPercent),
    operative_complication: details.complications.join(";"),
  };
}

function outcomeCells({ outcome }: FollowedOperation): Cells {
  return {
    last_seen_date: formatDay(outcome.lastSeen),
    status_last_seen: outcome.status,
    redetachment_date: dayOrBlank(outcome.redetached),
    never_attached: yesNo(outcome.neverAttached),
    failure_cause: outcome.causes.join(";"),
    oil_removed_date: dayOrBlank(outcome.oilRemoved),
    death_date: dayOrBlank(outcome.death),
    acuity_after: outcome.acuity === null ? "" : writeAcuity(outcome.acuity.logMar),
    acuity_after_date: dayOrBlank(outcome.acuity?.day ?? null),
    complication: outcome.complications.join(";"),
  };
}

function yesNo(holds: boolean): string {
  return holds ? "yes" : "no";
}

function orBlank(value: number | null): string {
  return value === null ? "" : String(value);
}

function dayOrBlank(day: number | null): string {
  return day === null ? "" : formatDay(day);
}
