import type { Random } from "./random.ts";
import { dayOf, theatreDay } from "./theatre-day.ts";
import { bothEyesShare, period } from "./truth.ts";

export type Side = "right" | "left";
export type DetachmentKind =
  | "horseshoe tear"
  | "round hole"
  | "dialysis"
  | "giant tear"
  | "macular hole"
  | "none found";

export interface Patient {
  /** An invented code: SM0001. */
  readonly code: string;
  readonly sex: "female" | "male";
  readonly smoker: "never" | "former" | "current";
  /** Days since 1970-01-01. */
  readonly born: number;
  /** What detaches in this person: the same in both eyes. */
  readonly kind: DetachmentKind;
  readonly primaries: readonly { readonly side: Side; readonly day: number }[];
}

interface KindOfPerson {
  readonly weight: number;
  readonly age: readonly [mean: number, sd: number, youngest: number, oldest: number];
  readonly male: number;
}

/** Who gets which detachment: common practice, no source. */
const people: ReadonlyMap<DetachmentKind, KindOfPerson> = new Map([
  ["horseshoe tear", { weight: 70, age: [62, 9.5, 25, 92], male: 0.6 }],
  ["round hole", { weight: 15, age: [33, 9, 14, 60], male: 0.47 }],
  ["dialysis", { weight: 4.5, age: [25, 9, 9, 52], male: 0.76 }],
  ["giant tear", { weight: 2, age: [46, 14, 12, 75], male: 0.72 }],
  ["macular hole", { weight: 1.5, age: [61, 9, 35, 85], male: 0.35 }],
  ["none found", { weight: 7, age: [68, 9, 40, 92], male: 0.55 }],
] satisfies [DetachmentKind, KindOfPerson][]);

/** Patients with so many eyes detached between them, numbered in order of their first repair. */
export function drawPatients(random: Random, eyes: number): readonly Patient[] {
  const days = { first: dayOf(period.first), last: dayOf(period.last) };
  const drawn: Unnumbered[] = [];
  for (let left = eyes; left > 0; ) {
    const patient = drawPatient(random, days);
    const primaries = patient.primaries.slice(0, left);
    drawn.push({ ...patient, primaries });
    left -= primaries.length;
  }
  return drawn
    .sort((a, b) => a.primaries[0]!.day - b.primaries[0]!.day)
    .map((patient, index) => ({ ...patient, code: patientCode(index + 1) }));
}

function patientCode(number: number): string {
  return `SM${String(number).padStart(4, "0")}`;
}

type Unnumbered = Omit<Patient, "code">;

/** One person with one or two detached eyes in the period (days since 1970-01-01). */
function drawPatient(
  random: Random,
  period: { readonly first: number; readonly last: number },
): Unnumbered {
  const kind = random.weighted([...people].map(([name, { weight }]) => [name, weight]));
  const { age, male } = people.get(kind)!;
  const primaries = drawPrimaries(random, period);
  const ageDays = Math.round(ageWithin(random, age) * 365.25);
  return {
    sex: random.chance(male) ? "male" : "female",
    smoker: drawSmoker(random, ageDays / 365.25),
    born: primaries[0]!.day - ageDays,
    kind,
    primaries,
  };
}

function ageWithin(random: Random, [mean, sd, youngest, oldest]: KindOfPerson["age"]): number {
  for (;;) {
    const age = random.normal(mean, sd);
    if (age >= youngest && age <= oldest) return age;
  }
}

function drawSmoker(random: Random, age: number): Patient["smoker"] {
  if (age < 16) return "never";
  return random.weighted([
    ["never", 55],
    ["former", age < 30 ? 10 : 27],
    ["current", 19],
  ]);
}

/** A second eye follows after one to twenty months. */
function drawPrimaries(
  random: Random,
  { first, last }: { readonly first: number; readonly last: number },
): Patient["primaries"] {
  const side: Side = random.chance(0.53) ? "right" : "left";
  const both = random.chance(bothEyesShare);
  const lag = both ? random.whole(25, 600) : 0;
  const day = theatreDay(random, random.whole(first, last - lag), last);
  if (!both) return [{ side, day }];
  const other: Side = side === "right" ? "left" : "right";
  return [
    { side, day },
    { side: other, day: theatreDay(random, day + lag, last) },
  ];
}
