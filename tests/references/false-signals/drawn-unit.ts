import type { CellValue } from "../../../src/cases/table.ts";
import { shiftedRisk } from "../../../src/statistics/cusum-weights.ts";
import { type RandomSource, seededRandom } from "../../../src/statistics/seeded-random.ts";

/**
 * An invented unit without drift: every surgeon has the same odds of failure for the same eye. The risk
 * of an eye hangs on its grade of PVR alone; failures are drawn from it, none is lost.
 */
export const settings = {
  seed: 20260401,
  units: 500,
  surgeons: ["A", "B", "C", "D", "E", "F"],
  eyesEach: 80,
  /** Grade, its share among the eyes, and its risk. */
  grades: [
    { grade: "none", share: 0.6, risk: 0.09 },
    { grade: "B", share: 0.3, risk: 0.18 },
    { grade: "C", share: 0.1, risk: 0.32 },
  ],
  runLength: 300,
} as const;

type Row = Readonly<Record<string, CellValue>>;

/** The cases of one unit; `oddsRatio` multiplies the odds of surgeon A's eyes from the first on. */
export function drawnUnit(unit: number, oddsRatio = 1): Row[] {
  const random = seededRandom(settings.seed + unit);
  return settings.surgeons.flatMap((surgeon) =>
    Array.from({ length: settings.eyesEach }, (_, i) =>
      drawnEye(random, { surgeon, i, oddsRatio: surgeon === "A" ? oddsRatio : 1 }),
    ),
  );
}

function drawnEye(
  random: RandomSource,
  { surgeon, i, oddsRatio }: { surgeon: string; i: number; oddsRatio: number },
): Row {
  const { grade, risk } = gradeAt(random.uniform());
  const hasFailed = random.uniform() < shiftedRisk(risk, oddsRatio);
  const day = 18_000 + 9 * i;
  return {
    patient: `${surgeon}${i}`,
    eye: "right",
    surgeon,
    operation_date: day,
    technique: "vitrectomy",
    pvr_grade: grade,
    // The true risk in percent, in a column of numbers.
    clock_hours_detached: 100 * risk,
    status_last_seen: "attached",
    last_seen_date: day + 400,
    ...(hasFailed ? { redetachment_date: day + 40 } : {}),
  };
}

function gradeAt(uniform: number): (typeof settings.grades)[number] {
  let sum = 0;
  for (const each of settings.grades) {
    sum += each.share;
    if (uniform < sum) return each;
  }
  return settings.grades[0];
}
