import type { IncidenceCurve, IncidenceCurves } from "../../charts/incidence-curves.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { AnswerTable, Caution, FigureRecord } from "../answer.ts";
import { counted, listed, percentRange } from "../answering/wording.ts";
import { question, type Worked } from "../question.ts";
import {
  type DepartmentPart,
  departmentsGiven,
  departmentsParameter,
  type PooledGroup,
  pooledGroup,
} from "./departments.ts";
import { landmarkDays, landmarkText } from "./landmark-days.ts";
import { timesNotTold } from "./not-told.ts";
import { inCommonBands, readableDays, type Side } from "./placed-follow-up.ts";
import {
  definitionWords,
  isOneValue,
  pooledAnswer,
  shareCell,
  shareText,
  withheldCaution,
} from "./pooled-answer.ts";
import { sumOf } from "./pooled-counts.ts";
import { type ShareFailed, shareOfCause } from "./share-failed.ts";
import { anyCause, causesNamed, timesOfCause } from "./times-of-cause.ts";

/**
 * Why did it fail over all departments? The Aalen–Johansen cumulative incidence of each cause that a
 * department names, other causes and deaths competing; with bounds where causes, times or deaths are
 * withheld.
 */
export const pooledIncidence = question(
  {
    name: "pooled_incidence",
    meaning: "the cumulative incidence of failure by cause over several departments",
    asks: "Why did it fail, over all departments?",
    example: "pooled_incidence(departments)",
    parameters: [departmentsParameter],
  },
  work,
);

interface PooledCause {
  readonly cause: string;
  readonly landmarks: readonly (ShareFailed | null)[];
  readonly steps: readonly ShareFailed[];
}

interface IncidenceParts {
  readonly causes: readonly PooledCause[];
  readonly group: PooledGroup;
  /** Days on which the incidence is read, the window's end last. */
  readonly landmarks: readonly number[];
  readonly days: number;
}

function work(given: GivenArguments): Worked {
  const files = departmentsGiven(given);
  const group = pooledGroup(files, "all eyes", []);
  const days = files[0]?.definition.days ?? 0;
  const landmarks = landmarkDays(days);
  const causes = [...causesNamed(group.parts), anyCause].map((cause) =>
    causeOver(group.parts, cause, { landmarks, days }),
  );
  const parts: IncidenceParts = { causes, group, landmarks, days };
  return pooledAnswer(
    files,
    {
      question: "pooled_incidence",
      asks: pooledIncidence.asks,
      sentence: [sentenceOf(causes, files.length, definitionWords(files))],
      table: tableOf(parts),
      chart: { draw: "incidence", incidence: drawn(parts) },
      figures: {
        headline: shareText(...endOf(causes.at(-1))),
        causes: causes.map((each) => figuresOf(each, landmarks)),
      },
    },
    { used: sumOf(group.parts, "eyes"), cautions: cautionsOf(parts) },
  );
}

function cautionsOf({ causes, group }: IncidenceParts): Caution[] {
  const told = causes.flatMap((each) => each.landmarks.flatMap((share) => share ?? []));
  return [
    ...withheldCaution(told.some((share) => !isOneValue(share))),
    ...timesNotTold([group], "times"),
    ...timesNotTold([group], "causes"),
  ];
}

function tableOf({ causes, landmarks }: IncidenceParts): AnswerTable {
  return {
    columns: [
      { label: "cause", kind: "text" },
      ...landmarks.map((day) => ({
        label: `failed by ${landmarkText(day)} (95%)`,
        kind: "estimate" as const,
      })),
    ],
    rows: causes.map(({ cause, landmarks: at }) => [
      { text: cause, value: cause },
      ...at.map(shareCell),
    ]),
  };
}

function drawn({ causes, group, days }: IncidenceParts): IncidenceCurves {
  return {
    curves: causes.flatMap(drawnCause),
    ...{ measure: "failed", until: days, atRiskTimes: [0] },
    groups: [{ label: "all eyes" }],
    atRisk: [[sumOf(group.parts, "eyes").least]],
    timeLabel: "months",
  };
}

function causeOver(
  parts: readonly DepartmentPart[],
  cause: string,
  { landmarks, days }: { readonly landmarks: readonly number[]; readonly days: number },
): PooledCause {
  const times = (side: Side) => inCommonBands(parts.map((part) => timesOfCause(part, cause, side)));
  const at = (day: number) => shareOfCause(times, day, days);
  return {
    cause,
    landmarks: landmarks.map(at),
    steps: readableDays(times("most"), days).flatMap((day) => at(day) ?? []),
  };
}

function sentenceOf(
  causes: readonly PooledCause[],
  departments: number,
  definition: string,
): string {
  const any = causes.at(-1)?.steps.at(-1);
  if (any === undefined)
    return "No incidence can be given: nobody was followed to the window's end.";
  const named = causes.slice(0, -1).flatMap(({ cause, steps }) => {
    const end = steps.at(-1);
    return end === undefined ? [] : [`${cause} ${shareText(end.lowest, end.highest)}`];
  });
  const why = named.length === 0 ? "" : `; by cause ${listed(named.slice(0, 4))}`;
  const rest = named.length > 4 ? ", the others in the table" : "";
  return `Over ${counted(departments, "department")}, ${shareText(any.lowest, any.highest)} (95% ${percentRange(any)}) failed (${definition}), deaths competing${why}${rest}.`;
}

function endOf(cause: PooledCause | undefined): [number | null, number | null] {
  const end = cause?.steps.at(-1);
  return [end?.lowest ?? null, end?.highest ?? null];
}

/** One line where the incidence is known, else its lowest and its highest course. */
function drawnCause({ cause, steps }: PooledCause): IncidenceCurve[] {
  const line = (label: string, of: "lowest" | "highest"): IncidenceCurve => ({
    label,
    steps: steps.map((step) => ({
      time: step.day,
      incidence: step[of],
      ...{ lower: step.lower, upper: step.upper },
    })),
    end: steps.at(-1)?.day ?? 0,
  });
  if (steps.every(isOneValue)) return [line(cause, "lowest")];
  return [line(`${cause}, at least`, "lowest"), line(`${cause}, at most`, "highest")];
}

function figuresOf({ cause, landmarks }: PooledCause, days: readonly number[]): FigureRecord {
  return {
    cause,
    at: days.map((day, position) => {
      const share = landmarks[position];
      return {
        day,
        lowest: share?.lowest ?? null,
        highest: share?.highest ?? null,
        lower: share?.lower ?? null,
        upper: share?.upper ?? null,
      };
    }),
  };
}
