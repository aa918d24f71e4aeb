import type { AttachmentCurves, CurveGroup } from "../../charts/attachment-curves.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { AnswerTable, Caution, FigureRecord } from "../answer.ts";
import { techniquesChosen } from "../answering/cautions.ts";
import { counted, listed, percentRange } from "../answering/wording.ts";
import { question, textGiven, type Worked } from "../question.ts";
import {
  byColumnParameter,
  departmentsGiven,
  departmentsParameter,
  type PooledGroup,
  pooledGroups,
} from "./departments.ts";
import { landmarkDays, landmarkText } from "./landmark-days.ts";
import { timesNotTold } from "./not-told.ts";
import { type CountedTimes, placedEyes, readableDays } from "./placed-follow-up.ts";
import {
  boundsCell,
  definitionWords,
  isOneValue,
  pooledAnswer,
  shareCell,
  shareText,
  withheldCaution,
} from "./pooled-answer.ts";
import { sumOf } from "./pooled-counts.ts";
import { type ShareFailed, shareFailed } from "./share-failed.ts";
import { timesOfGroup } from "./times-of-group.ts";

/**
 * When did it fail over all departments? The Kaplan–Meier estimate from tables of times: the very
 * curve of the patients where departments give days, else the lowest and highest that bands allow.
 */
export const pooledCurve = question(
  {
    name: "pooled_curve",
    meaning: "the share failed as time goes by over several departments, from their aggregates",
    asks: "When did it fail, over all departments?",
    example: "pooled_curve(departments)",
    parameters: [departmentsParameter, byColumnParameter],
  },
  work,
);

interface PooledCurve {
  readonly group: PooledGroup;
  readonly landmarks: readonly (ShareFailed | null)[];
  readonly steps: readonly ShareFailed[];
  readonly times: readonly CountedTimes[];
}

interface CurveParts {
  readonly curves: readonly PooledCurve[];
  /** "technique"; empty for all eyes together. */
  readonly column: string;
  /** Days on which the curves are read, the window's end last. */
  readonly landmarks: readonly number[];
  readonly days: number;
}

function work(given: GivenArguments): Worked {
  const files = departmentsGiven(given);
  const found = pooledGroups(files, given);
  if ("problems" in found) return found;
  const days = files[0]?.definition.days ?? 0;
  const landmarks = landmarkDays(days);
  const curves = found.groups.map((group) => curveOver(group, landmarks, days));
  const parts: CurveParts = { curves, column: textGiven<string>(given, "by", ""), landmarks, days };
  const least = curves.reduce((sum, { group }) => sum + sumOf(group.parts, "eyes").least, 0);
  return pooledAnswer(
    files,
    {
      question: "pooled_curve",
      asks: pooledCurve.asks,
      sentence: [sentenceOf(curves, files.length, definitionWords(files))],
      table: tableOf(parts),
      chart: { draw: "attachment curves", curves: drawn(parts) },
      figures: curveFigures(parts),
    },
    {
      used: { least, most: Number.POSITIVE_INFINITY },
      cautions: cautionsOf(parts),
    },
  );
}

function curveOver(group: PooledGroup, landmarks: readonly number[], days: number): PooledCurve {
  const times = timesOfGroup(group);
  const at = (day: number) => shareFailed(times, day, days);
  return {
    group,
    landmarks: landmarks.map(at),
    steps: readableDays(times("most"), days).flatMap((day) => at(day) ?? []),
    times: times("fewest"),
  };
}

function cautionsOf({ curves, column }: CurveParts): Caution[] {
  const told = curves.flatMap(({ landmarks: at }) => at.flatMap((each) => each ?? []));
  const groups = curves.map(({ group }) => group);
  return [
    ...techniquesChosen(column === "" ? [] : [column]),
    ...withheldCaution(told.some((each) => !isOneValue(each))),
    ...timesNotTold(groups, "times"),
  ];
}

function tableOf({ curves, column, landmarks }: CurveParts): AnswerTable {
  return {
    columns: [
      { label: column === "" ? "eyes" : column.replaceAll("_", " "), kind: "text" },
      { label: "all eyes", kind: "number" },
      ...landmarks.map((day) => ({
        label: `failed by ${landmarkText(day)} (95%)`,
        kind: "estimate" as const,
      })),
    ],
    rows: curves.map(({ group, landmarks: at }) => [
      { text: group.label, value: group.label },
      boundsCell(sumOf(group.parts, "eyes")),
      ...at.map(shareCell),
    ]),
  };
}

function drawn({ curves, days }: CurveParts): AttachmentCurves {
  const groups = curves.flatMap((curve) => drawnCurves(curve, days));
  return {
    groups,
    until: days,
    atRiskTimes: [0],
    atRisk: groups.map(({ total }) => [total]),
    timeLabel: "months",
    yFloor: 0.6,
  };
}

function curveFigures({ curves, column, landmarks }: CurveParts): FigureRecord {
  const groups = curves.map((curve) => ({
    group: curve.group.label,
    ...figuresOf(curve, landmarks),
  }));
  return {
    ...figuresOf(curves[0], landmarks),
    headline: shareText(...endOf(curves[0])),
    ...(column === "" ? {} : { groups }),
  };
}

function sentenceOf(
  curves: readonly PooledCurve[],
  departments: number,
  definition: string,
): string {
  const told = curves.slice(0, 4).flatMap(({ group, steps }) => {
    const end = steps.at(-1);
    if (end === undefined) return [];
    const who = group.label === "all eyes" ? "" : `${group.label} `;
    return [`${who}${shareText(end.lowest, end.highest)} (95% ${percentRange(end)})`];
  });
  if (told.length === 0) return "No curve can be drawn: nobody was followed to the window's end.";
  const others = curves.length > 4 ? "; the others stand in the table" : "";
  return `By the curve over ${counted(departments, "department")}, failed (${definition}): ${listed(told)}${others}.`;
}

function endOf(curve: PooledCurve | undefined): [number | null, number | null] {
  const end = curve?.steps.at(-1);
  return [end?.lowest ?? null, end?.highest ?? null];
}

/** One line where the curve is known, else its highest and its lowest course. */
function drawnCurves({ group, steps, times }: PooledCurve, days: number): CurveGroup[] {
  const isKnown = steps.every(isOneValue);
  const total = placedEyes(times, { at: days, side: "fewest", days }).time.length;
  const line = (label: string, of: "lowest" | "highest"): CurveGroup => ({
    label,
    total,
    steps: steps.map((step) => ({
      time: step.day,
      survival: 1 - step[of],
      lower: 1 - step.upper,
      upper: 1 - step.lower,
      atRisk: total,
    })),
    censored: [],
    end: steps.at(-1)?.day ?? 0,
  });
  if (isKnown) return [line(group.label, "lowest")];
  return [line(`${group.label}, at best`, "lowest"), line(`${group.label}, at worst`, "highest")];
}

function figuresOf(curve: PooledCurve | undefined, landmarks: readonly number[]): FigureRecord {
  const figures: Record<string, FigureRecord> = Object.create(null);
  landmarks.forEach((day, at) => {
    const share = curve?.landmarks[at];
    figures[`day_${day}`] = {
      failed: share && isOneValue(share) ? share.lowest : null,
      lowest: share?.lowest ?? null,
      highest: share?.highest ?? null,
      lower: share?.lower ?? null,
      upper: share?.upper ?? null,
    };
  });
  return figures;
}
