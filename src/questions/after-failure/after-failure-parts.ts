import {
  type CourseAfterFailure,
  type Courses,
  type LastState,
  lastStates,
  type NextStep,
  type Suspicion,
} from "../../outcomes/after-failure.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { quartiles } from "../../outcomes/quartiles.ts";
import type { Interval } from "../../statistics/interval.ts";
import type { Grouping } from "../answering/grouping.ts";
import { shareInterval } from "../answering/share-interval.ts";

/** What the sentence, the table, the chart and the figures are all made from. */
export interface AfterFailureParts {
  readonly record: EyeRecord;
  readonly grouping: Grouping;
  readonly courses: Courses;
  readonly window: { readonly text: string } | undefined;
}

/** Courses told together, with how they ended. */
export interface CourseGroup {
  readonly label: string;
  readonly courses: readonly CourseAfterFailure[];
  /** Eyes by the state they were last known in. */
  readonly byState: ReadonlyMap<LastState, readonly number[]>;
  /** Attached, attached under oil or detached: the denominator of the shares. */
  readonly decided: number;
  readonly withoutOil: Share | null;
  readonly withOrWithoutOil: Share | null;
  readonly operations: {
    readonly median: number;
    readonly least: number;
    readonly most: number;
  } | null;
}

export interface Share {
  readonly count: number;
  readonly of: number;
  readonly share: number;
  readonly interval: Interval;
}

export function courseGroup(
  record: EyeRecord,
  label: string,
  courses: readonly CourseAfterFailure[],
): CourseGroup {
  const byState = new Map<LastState, number[]>(lastStates.map((state) => [state, []]));
  for (const { eye, last } of courses) byState.get(last)?.push(eye);
  const inState = (state: LastState): readonly number[] => byState.get(state) ?? [];
  const attached = inState("attached");
  const held = [...attached, ...inState("attached under oil")];
  const decided = [...held, ...inState("detached")];
  const counts = courses.map((course) => course.operations);
  const spread = quartiles(counts);
  return {
    label,
    courses,
    byState,
    decided: decided.length,
    withoutOil: shareOf(record, attached, decided),
    withOrWithoutOil: shareOf(record, held, decided),
    operations:
      spread === null
        ? null
        : { median: spread.median, least: Math.min(...counts), most: Math.max(...counts) },
  };
}

/** Null where there is nothing to take a share of. */
function shareOf(
  record: EyeRecord,
  counted: readonly number[],
  eyes: readonly number[],
): Share | null {
  const interval = shareInterval(record, counted, eyes);
  const [count, of] = [counted.length, eyes.length];
  return interval === null ? null : { count, of, share: count / of, interval };
}

/**
 * The courses by what was done next: observation first, then techniques by number with their
 * details beside one another, nothing last.
 */
export function byNextStep(
  record: EyeRecord,
  courses: readonly CourseAfterFailure[],
): CourseGroup[] {
  const groups = new Map<string, CourseAfterFailure[]>();
  const ofTechnique = new Map<string, number>();
  for (const course of courses) {
    const label = stepLabel(course.next);
    const group = groups.get(label);
    if (group === undefined) groups.set(label, [course]);
    else group.push(course);
    const technique = techniqueOf(course);
    ofTechnique.set(technique, (ofTechnique.get(technique) ?? 0) + 1);
  }
  const rank = (group: CourseGroup): readonly (number | string)[] => {
    const [first] = group.courses;
    if (first === undefined) return [];
    const technique = techniqueOf(first);
    const kind = stepKinds.indexOf(first.next.kind);
    return [
      kind,
      -(ofTechnique.get(technique) ?? 0),
      technique,
      -group.courses.length,
      group.label,
    ];
  };
  return [...groups]
    .map(([label, members]) => courseGroup(record, label, members))
    .sort((a, b) => compareRanks(rank(a), rank(b)));
}

const stepKinds: readonly NextStep["kind"][] = ["observed", "operation", "none recorded"];

function techniqueOf({ next }: CourseAfterFailure): string {
  return next.kind === "operation" ? next.technique : next.kind;
}

function compareRanks(
  one: readonly (number | string)[],
  other: readonly (number | string)[],
): number {
  for (const [place, value] of one.entries()) {
    const against = other[place] ?? value;
    if (value !== against) return value < against ? -1 : 1;
  }
  return 0;
}

export function stepLabel(next: NextStep): string {
  if (next.kind === "observed") return "observed, no operation";
  if (next.kind === "none recorded") return "no further operation recorded";
  return next.detail === undefined ? next.technique : `${next.technique}: ${next.detail}`;
}

/** Suspected failures that settled, of those decided either way. */
export function settledShare(record: EyeRecord, suspected: readonly Suspicion[]): Share | null {
  const decided = suspected.filter(({ ending }) => ending !== "not decided");
  const settled = decided.filter(({ ending }) => ending === "settled");
  const eyesOf = (some: readonly Suspicion[]) => some.map(({ eye }) => eye);
  return shareOf(record, eyesOf(settled), eyesOf(decided));
}
