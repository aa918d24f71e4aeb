import type { EyeRecord } from "../../outcomes/eye-record.ts";

/**
 * The patient of each of these eyes, as a number, for variances that allow for two eyes of one
 * person; an eye without a patient stands for itself. Numbers rise from 0 in the order in which
 * patients first come. Undefined where no patient gives two of them: then eyes are independent and
 * the variance of the model holds.
 */
export function patientClusters(
  record: EyeRecord,
  eyes: readonly number[],
): Int32Array | undefined {
  const numbers = patientNumbers(record);
  const found = numbers.clusters.get(eyes) ?? clustersOf(numbers, eyes);
  numbers.clusters.set(eyes, found);
  return found === "independent" ? undefined : found;
}

function clustersOf({ numbers, patients }: PatientNumbers, eyes: readonly number[]) {
  const clusterOf = new Int32Array(patients).fill(-1);
  const clusters = new Int32Array(eyes.length);
  let found = 0;
  for (let i = 0; i < clusters.length; i++) {
    const patient = numbers[eyes[i]!]!;
    if (clusterOf[patient] === -1) clusterOf[patient] = found++;
    clusters[i] = clusterOf[patient]!;
  }
  return found === clusters.length ? "independent" : clusters;
}

/** How many patients give more than one eye of the record. */
export function patientsOfSeveralEyes(record: EyeRecord): number {
  return patientNumbers(record).ofSeveral;
}

interface PatientNumbers {
  /** By eye of the record. */
  readonly numbers: Int32Array;
  readonly patients: number;
  /** Patients of more than one eye. */
  readonly ofSeveral: number;
  /** By the list of eyes that was asked for: an interval, its limits' name and a curve ask for the same. */
  readonly clusters: WeakMap<readonly number[], Int32Array | "independent">;
}

/** Looked up by name once for each record: every question asks for parts of it many times. */
const known = new WeakMap<EyeRecord, PatientNumbers>();

function patientNumbers(record: EyeRecord): PatientNumbers {
  const made = known.get(record) ?? numberPatients(record);
  known.set(record, made);
  return made;
}

function numberPatients({ patient, time }: EyeRecord): PatientNumbers {
  const byName = new Map<string, number>();
  let patients = 0;
  const numbers = Int32Array.from(time, (_, eye) => {
    const name = patient[eye] ?? null;
    const number = (name === null ? undefined : byName.get(name)) ?? patients++;
    if (name !== null) byName.set(name, number);
    return number;
  });
  const eyes = new Int32Array(patients);
  for (const number of numbers) eyes[number]!++;
  const ofSeveral = eyes.filter((count) => count > 1).length;
  return { numbers, patients, ofSeveral, clusters: new WeakMap() };
}
