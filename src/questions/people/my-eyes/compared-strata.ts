import { columnNamed } from "../../../cases/table.ts";
import type { Interval } from "../../../statistics/interval.ts";
import {
  type ComparisonEstimate,
  newcombeDifference,
} from "../../../statistics/newcombe-difference.ts";
import { wilsonInterval } from "../../../statistics/wilson-interval.ts";
import { groupsOf } from "../../answering/group-rows.ts";
import { rowColumns } from "../../answering/row-columns.ts";
import { among, type JudgedEyes } from "../judged-eyes.ts";
import type { OnePerson } from "../one-person.ts";

/** One person's eyes of a kind beside those of the unit without them. */
export interface ComparedStratum {
  /** What the kinds are of: "technique"; empty for all eyes. */
  readonly section: string;
  readonly label: string;
  readonly own: SideOfStratum;
  /** Undefined where it would tell the results of one other surgeon. */
  readonly others: SideOfStratum | undefined;
  /** Own less others; null where a side has no known eye or is not told. */
  readonly difference: ComparisonEstimate | null;
}

export interface SideOfStratum {
  readonly judged: JudgedEyes;
  readonly failedEyes: readonly number[];
  readonly rate: number | null;
  readonly interval: Interval | null;
}

/** The kinds of eyes by which a surgeon's own are set beside the others'. */
const sections = ["technique", "risk_stratum"] as const;

/** All eyes, then by technique and by stratum of risk, as far as the file has them. */
export function comparedStrata(judged: JudgedEyes, person: OnePerson): ComparedStratum[] {
  const columns = rowColumns(judged.record.table);
  const all = [...judged.known, ...judged.unknown, ...judged.tooRecent];
  const whole = compared("", { label: "all eyes", rows: all }, { judged, person, isTold: true });
  const split = sections.flatMap((name) => {
    const column = columns.column(name);
    if (column === undefined) return [];
    const groups = groupsOf(column, all);
    const told = toldGroups(groups, judged, person);
    return groups
      .map((group, i) =>
        compared(column.label, group, { judged, person, isTold: told[i] === true }),
      )
      .filter(({ own }) => own.judged.known.length + own.judged.unknown.length > 0);
  });
  return [whole, ...split];
}

/**
 * Which kinds may show the others: those with known eyes of two other surgeons at least, or of none.
 * What is not shown could be had by subtraction from all eyes: where it would all be of one surgeon,
 * the shown kind with the fewest eyes of others is kept back as well.
 */
function toldGroups(
  groups: readonly { readonly rows: readonly number[] }[],
  judged: JudgedEyes,
  person: OnePerson,
): boolean[] {
  const surgeon = columnNamed(judged.record.table, "surgeon")?.values ?? [];
  const own = new Set(person.eyes);
  const known = new Set(judged.known);
  const others = groups.map(({ rows }) => rows.filter((eye) => known.has(eye) && !own.has(eye)));
  const peopleOf = (eyes: readonly number[]) => new Set(eyes.map((eye) => surgeon[eye])).size;
  const isOwn = groups.map(({ rows }) => rows.some((eye) => own.has(eye)));
  const told = others.map((eyes, i) => isOwn[i] === true && peopleOf(eyes) !== 1);
  const bySize = others
    .map((eyes, i) => ({ i, eyes: eyes.length }))
    .filter(({ i, eyes }) => told[i] === true && eyes > 0)
    .sort((a, b) => a.eyes - b.eyes);
  const untold = () => others.filter((_, i) => told[i] !== true).flat();
  for (const { i } of bySize) {
    if (peopleOf(untold()) !== 1) break;
    told[i] = false;
  }
  return told;
}

function compared(
  section: string,
  { label, rows }: { readonly label: string; readonly rows: readonly number[] },
  about: { readonly judged: JudgedEyes; readonly person: OnePerson; readonly isTold: boolean },
): ComparedStratum {
  const mine = new Set(about.person.eyes);
  const own = sideOf(
    about.judged,
    rows.filter((eye) => mine.has(eye)),
  );
  const theirs = sideOf(
    about.judged,
    rows.filter((eye) => !mine.has(eye)),
  );
  const difference = newcombeDifference({ first: partOf(own), second: partOf(theirs) });
  return {
    section,
    label,
    own,
    others: about.isTold ? theirs : undefined,
    difference: about.isTold ? difference : null,
  };
}

function sideOf(judged: JudgedEyes, eyes: readonly number[]): SideOfStratum {
  const own = among(judged, eyes);
  const failedEyes = own.known.filter(own.hasFailed);
  const total = own.known.length;
  return {
    judged: own,
    failedEyes,
    rate: total === 0 ? null : failedEyes.length / total,
    interval: wilsonInterval(failedEyes.length, total),
  };
}

function partOf({ failedEyes, judged }: SideOfStratum) {
  return { failed: failedEyes.length, total: judged.known.length };
}
