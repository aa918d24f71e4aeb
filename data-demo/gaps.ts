import type { Cells } from "./cells.ts";
import type { Random } from "./random.ts";

/**
 * Share of rows in which each field was not filled in, where there was something to fill in:
 * what is measured for some eyes only, what has to be asked, what is forgotten (chosen).
 */
const missingShare: Readonly<Record<string, number>> = {
  axial_length: 0.45,
  refraction: 0.22,
  smoker: 0.08,
  symptom_days: 0.05,
  macula_off_days: 0.09,
  macula: 0.008,
  clock_hours_detached: 0.03,
  break_clock_hours: 0.03,
  lattice: 0.05,
  pvd: 0.04,
  pvr_grade: 0.025,
  vitreous_haemorrhage: 0.015,
  previous_cryotherapy: 0.04,
  trauma: 0.03,
  gas_unsuitable: 0.05,
  acuity_before: 0.02,
  supervision: 0.02,
  gas_percent: 0.04,
  failure_cause: 0.04,
  complication: 0.05,
};

/** Fields that were not written either where another was not. */
const alsoBlank: Readonly<Record<string, readonly string[]>> = {
  pvr_grade: ["pvr_clock_hours", "pvr_zone"],
  macula: ["macula_off_days"],
};

/** Records were poorer in the first half year, and surgeon F's are poorer throughout. */
function carelessness(cells: Cells): number {
  const early = (cells.operation_date ?? "") < "2023-07-01" ? 1.5 : 1;
  return early * (cells.surgeon === "F" ? 2 : 1);
}

/** The row with some of its fields left blank. */
export function leaveGaps(random: Random, cells: Cells): Cells {
  const times = carelessness(cells);
  const blank = Object.entries(missingShare)
    .filter(([, share]) => random.chance(Math.min(0.9, share * times)))
    .flatMap(([field]) => [field, ...(alsoBlank[field] ?? [])]);
  if (neverCameBack(cells) && random.chance(0.004)) {
    blank.push("last_seen_date", "status_last_seen", "acuity_after", "acuity_after_date");
  }
  return { ...cells, ...Object.fromEntries(blank.map((field) => [field, ""])) };
}

/** Nothing that happened later is on the record. */
function neverCameBack(cells: Cells): boolean {
  const later = ["redetachment_date", "oil_removed_date", "death_date"];
  return cells.never_attached === "no" && later.every((field) => cells[field] === "");
}
