import type { CasesToCheck, Finding } from "./check.ts";

/** What an operation is of, and when: without one of them it belongs to no eye that is followed. */
const needed = {
  patient: { message: "the patient is not recorded", expected: "the patient's number or code" },
  eye: { message: "which eye is not recorded", expected: "right or left" },
  operation_date: {
    message: "the day of the operation is not recorded",
    expected: "a day such as 2025-03-31",
  },
} as const;

type Needed = keyof typeof needed;

/** Queries: rows that say not whose eye was operated on, or not when; no answer can count them. */
export function eyeNotKnown(cases: CasesToCheck): readonly Finding[] {
  return (Object.keys(needed) as Needed[])
    .filter((field) => cases.has(field))
    .flatMap((field) => cases.eachRow((row) => findingOf(cases, field, row)));
}

function findingOf(cases: CasesToCheck, field: Needed, row: number): Finding | undefined {
  if (cases.value(field, row) !== null) return undefined;
  const { message, expected } = needed[field];
  return {
    row,
    field,
    code: "eye-not-known",
    message: `${message}, so that the operation belongs to no eye that can be followed.`,
    found: "",
    expected,
    remedy: "add it from the record, as a correction or in the file",
  };
}
