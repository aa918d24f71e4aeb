import { type Random, seededRandom } from "../../../data-demo/random.ts";
import { dayFromParts } from "../../../src/cases/calendar-day.ts";

/** What is true of one operation, before anybody wrote it down. Null: nobody knows. */
export interface TrueRow {
  readonly case: string;
  readonly patient: string;
  readonly eye: "right" | "left";
  readonly operation_date: number;
  readonly surgeon: string;
  readonly age: number | null;
  readonly lens: "phakic" | "pseudophakic";
  readonly symptom_days: number | null;
  readonly break_type: readonly string[];
  readonly break_clock_hours: readonly string[];
  /** Extent and zone only of grade C. */
  readonly pvr_grade: "none" | "A" | "B" | "C" | null;
  readonly pvr_clock_hours: number | null;
  readonly pvr_zone: "anterior" | "posterior" | null;
  readonly trauma: boolean | null;
  readonly axial_length: number | null;
  readonly refraction: number | null;
  /** logMAR. */
  readonly acuity_before: number | null;
  readonly technique: string;
  readonly tamponade: string;
  readonly last_seen_date: number;
  readonly status_last_seen: string;
  readonly redetachment_date: number | null;
  readonly score: number;
  readonly notes: string | null;
}

/** Extent and zone of scarring stand in the grade, in no column of their own. */
export type TrueField = Exclude<keyof TrueRow, "pvr_clock_hours" | "pvr_zone">;

export const trueFields: readonly TrueField[] = [
  "case",
  "patient",
  "eye",
  "operation_date",
  "surgeon",
  "age",
  "lens",
  "symptom_days",
  "break_type",
  "break_clock_hours",
  "pvr_grade",
  "trauma",
  "axial_length",
  "refraction",
  "acuity_before",
  "technique",
  "tamponade",
  "last_seen_date",
  "status_last_seen",
  "redetachment_date",
  "score",
  "notes",
];

/** Acuities that every chart has a line for, in logMAR, and those of low vision (Bach's table). */
const acuities = [0, 0.3, 0.6, 1, 1.9, 2.3, 2.7, 3];
const notes = [
  "routine",
  'said "flat" at once',
  "seen; fluid, then flat",
  "one\ntwo",
  "M\u00fcller \u00e9t\u00e9",
];
const firstDay = dayFromParts(2024, 1, 4)!;

/** The same forty operations every time, sound in every check. */
export function cleanTruth(): readonly TrueRow[] {
  const random = seededRandom(4180);
  return Array.from({ length: 40 }, (_, i) => trueRow(i, random));
}

function trueRow(i: number, random: Random): TrueRow {
  const of = <Value>(values: readonly Value[]): Value =>
    values[random.whole(0, values.length - 1)]!;
  const orMissing = <Value>(value: Value): Value | null => (random.chance(0.15) ? null : value);
  const operated = firstDay + i * 9 + random.whole(0, 5);
  const seen = operated + random.whole(30, 300);
  const technique = of(["scleral buckle", "vitrectomy", "vitrectomy with buckle"]);
  const failed = random.chance(0.2);
  const grade = orMissing(of(["none", "A", "B", "C", "C"] as const));
  return {
    case: String(i + 1).padStart(4, "0"),
    patient: `SM${100 + i}`,
    eye: of(["right", "left"]),
    operation_date: operated,
    surgeon: of(["A", "B", "C"]),
    age: orMissing(random.whole(20, 90)),
    lens: of(["phakic", "pseudophakic"]),
    symptom_days: orMissing(random.whole(1, 60)),
    break_type: of([["horseshoe tear"], ["round hole"], ["horseshoe tear", "round hole"]]),
    break_clock_hours: of([["1"], ["1", "2"], ["10", "11"], ["12", "1"]]),
    pvr_grade: grade,
    pvr_clock_hours: grade === "C" ? random.whole(4, 12) : null,
    pvr_zone: grade === "C" ? of(["anterior", "posterior"] as const) : null,
    trauma: orMissing(random.chance(0.1)),
    axial_length: orMissing(random.whole(220, 290) / 10),
    refraction: orMissing(random.whole(-40, 8) / 4),
    acuity_before: orMissing(of(acuities)),
    technique,
    tamponade: technique === "scleral buckle" ? "none" : of(["SF6", "C3F8"]),
    last_seen_date: seen,
    status_last_seen: failed ? "detached" : "attached",
    redetachment_date: failed ? operated + random.whole(5, 29) : null,
    score: random.whole(10, 99) / 10,
    notes: orMissing(of(notes)),
  };
}
