import { columnNamed } from "../../../cases/table.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import { cochranArmitage } from "../../../statistics/cochran-armitage.ts";
import type { Interval } from "../../../statistics/interval.ts";
import { wilsonInterval } from "../../../statistics/wilson-interval.ts";
import { groupsOf } from "../../answering/group-rows.ts";
import { rowColumns } from "../../answering/row-columns.ts";
import type { JudgedEyes } from "../../people/judged-eyes.ts";
import type { OnePerson } from "../../people/one-person.ts";
import type { Difficulty } from "./difficulty-of-eyes.ts";
import type { LearningDesign } from "./learning-design.ts";
import type { ThreeWay } from "./three-way.ts";

/** What the sentence, the table and the chart of a learning curve are all made from. */
export interface LearningParts {
  readonly person: OnePerson;
  /** The trainee's own eyes. */
  readonly judged: JudgedEyes;
  /** Known eyes in order of operation. */
  readonly eyes: readonly number[];
  readonly failed: readonly boolean[];
  readonly days: readonly (number | null)[];
  readonly isByDay: boolean;
  readonly design: LearningDesign;
  readonly found: ThreeWay;
  readonly bySupervision: readonly CountedRate[];
  /** First, second and last third, with how hard their eyes were. */
  readonly thirds: readonly Third[];
  /** What difficulty is measured by; undefined where nothing tells it. */
  readonly difficulty: Difficulty | undefined;
  /** The trainers and the unit, each of several people together. */
  readonly context: readonly CountedRate[];
}

export interface CountedRate {
  readonly label: string;
  readonly eyes: readonly number[];
  readonly failedEyes: readonly number[];
  readonly rate: number | null;
  readonly interval: Interval | null;
  /** Whether its eyes may be opened: the trainee's own. */
  readonly isOpen: boolean;
}

export interface Third extends CountedRate {
  /** The mean difficulty of the eyes that have one. */
  readonly difficulty: number | null;
}

export function countedRate(
  label: string,
  eyes: readonly number[],
  { hasFailed, isOpen }: { readonly hasFailed: (eye: number) => boolean; readonly isOpen: boolean },
): CountedRate {
  const failedEyes = eyes.filter(hasFailed);
  const rate = eyes.length === 0 ? null : failedEyes.length / eyes.length;
  const interval = wilsonInterval(failedEyes.length, eyes.length);
  return { label, eyes, failedEyes, rate, interval, isOpen };
}

/** The trainee's known eyes by level of supervision, where the file has it. */
export function bySupervision({ record, known, hasFailed }: JudgedEyes): CountedRate[] {
  const column = rowColumns(record.table).column("supervision");
  if (column === undefined) return [];
  return groupsOf(column, known).map(({ label, rows }) =>
    countedRate(label, rows, { hasFailed, isOpen: true }),
  );
}

/** Thirds of the series in order, each with the mean difficulty of its eyes. */
export function thirdsOf(
  eyes: readonly number[],
  hasFailed: (eye: number) => boolean,
  difficulty: Difficulty | undefined,
): Third[] {
  if (eyes.length < 6) return [];
  const cuts = [0, Math.round(eyes.length / 3), Math.round((2 * eyes.length) / 3), eyes.length];
  return ["first third", "second third", "last third"].map((label, i) => {
    const part = eyes.slice(cuts[i], cuts[i + 1]);
    const told = part.flatMap((eye) => difficulty?.of(eye) ?? []);
    const mean =
      told.length === 0 ? null : told.reduce((sum, value) => sum + value, 0) / told.length;
    return { ...countedRate(label, part, { hasFailed, isOpen: true }), difficulty: mean };
  });
}

/**
 * Whether failures fall, or rise, over the thirds: the Cochran-Armitage test of trend, two-sided; null
 * where there are no thirds, or none or all failed.
 */
export function trendOf(
  thirds: readonly Third[],
): { readonly z: number; readonly p: number } | null {
  const groups = thirds.map(({ failedEyes, eyes }) => ({
    failed: failedEyes.length,
    total: eyes.length,
  }));
  const failed = groups.reduce((sum, group) => sum + group.failed, 0);
  const total = groups.reduce((sum, group) => sum + group.total, 0);
  if (groups.length === 0 || failed === 0 || failed === total) return null;
  const { z, pValue } = cochranArmitage(groups);
  return { z, p: pValue };
}

/**
 * The rates that stand beside a trainee's: of those who supervised them, and of the unit without them.
 * Each is of two people at least, and so is what one leaves of the other; none leads to eyes: no
 * trainer is told alone.
 */
export function contextOf(judged: JudgedEyes, person: OnePerson): CountedRate[] {
  const { record, known, hasFailed } = judged;
  const surgeon = columnNamed(record.table, "surgeon")?.values ?? [];
  const own = new Set(person.eyes);
  const others = known.filter((eye) => !own.has(eye));
  const trainers = trainersOf(record, person);
  const theirs = others.filter((eye) => trainers.has(String(surgeon[eye])));
  const people = new Set(theirs.map((eye) => surgeon[eye])).size;
  const how = { hasFailed, isOpen: false };
  const isUnitTold = person.otherPeople >= 2;
  const areTrainersTold = people >= 2 && person.otherPeople - people !== 1;
  return [
    ...(areTrainersTold ? [countedRate(`${people} trainers together`, theirs, how)] : []),
    ...(isUnitTold ? [countedRate(`the unit without ${person.code}`, others, how)] : []),
  ];
}

function trainersOf(record: EyeRecord, person: OnePerson): Set<string> {
  const supervisor = columnNamed(record.table, "supervisor")?.values ?? [];
  return new Set(
    person.eyes.flatMap((eye) => {
      const code = supervisor[eye] ?? null;
      return code === null || String(code) === person.code ? [] : [String(code)];
    }),
  );
}
