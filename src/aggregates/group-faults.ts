import {
  type AggregateGroup,
  type AggregatesFile,
  type Count,
  quantities,
  type TimeTable,
} from "./aggregates-file.ts";
import { countBounds, keyOfGroup } from "./count-bounds.ts";

export interface GroupFault {
  readonly part: unknown;
  readonly message: string;
  readonly expected: string;
}

/** "all eyes", or "vitrectomy and high risk". */
function labelOf({ by }: AggregateGroup): string {
  return by.length === 0 ? "all eyes" : by.map(({ value }) => value).join(" and ");
}

/** What does not fit together among parts that are each well formed. */
export function groupFaults(file: AggregatesFile): GroupFault[] {
  const faults = [
    ...groupingFaults(file),
    ...file.groups.flatMap((group) =>
      faultsOf(file, group).map((each) => ({
        ...each,
        message: `the counts of ${labelOf(group)} do not fit together`,
      })),
    ),
  ];
  return faults.length === 0 ? sumFaults(file) : faults;
}

function groupingFaults({ groups }: AggregatesFile): GroupFault[] {
  const keys = groups.map(keyOfGroup);
  const twice = keys.find((key, at) => keys.indexOf(key) !== at);
  return [
    ...fault(groups[0]?.by.length !== 0, groups[0]?.by, "all eyes first: an empty `by`"),
    ...fault(twice !== undefined, twice, "each group once"),
  ];
}

function faultsOf(file: AggregatesFile, group: AggregateGroup): GroupFault[] {
  const { eyes, failed, pairs, times, causes } = group;
  const known = typeof group.held === "number" && typeof failed === "number";
  const inPairs = pairs === undefined ? 0 : 2 * (pairs.none + pairs.one + pairs.both);
  return [
    ...quantities.flatMap((name) => smallFault(group[name], file.smallest_count)),
    ...outcomeFault(group),
    ...fault(
      pairs !== undefined && (!known || inPairs > Number(failed) + Number(group.held)),
      pairs,
      "no more eyes in pairs than eyes known",
    ),
    ...(times === undefined ? [] : timeFaults(times, { eyes, failed, days: file.definition.days })),
    ...(times === undefined
      ? fault(causes !== undefined, causes, "causes only beside times")
      : causeFaults(group, times)),
  ];
}

/** Where all four are told. */
function outcomeFault({ eyes, failed, held, unknown }: AggregateGroup): GroupFault[] {
  const counts = [eyes, failed, held, unknown];
  if (!counts.every((count) => typeof count === "number")) return [];
  const [all = 0, ...parts] = counts;
  const sum = parts.reduce((total, count) => total + count, 0);
  return fault(all !== sum, all, `${sum} eyes: failed, held and unknown added up`);
}

function smallFault(count: Count, smallest: number): GroupFault[] {
  const isSmall = typeof count === "number" && count > 0 && count < smallest;
  return fault(isSmall, count, `no count from 1 to ${smallest - 1}`);
}

function timeFaults(
  { bands, reached }: TimeTable,
  { eyes, failed, days }: { eyes: Count; failed: Count; days: number },
): GroupFault[] {
  const isOrdered = bands.every(
    ({ from, to }, at) => from <= to && to <= days && from > (bands[at - 1]?.to ?? -1),
  );
  const allFailed = bands.reduce((sum, band) => sum + band.failed, 0);
  const all = bands.reduce((sum, { ended, died }) => sum + ended + died, allFailed + reached);
  return [
    ...fault(!isOrdered, bands, `bands in order, up to day ${days}, none overlapping`),
    ...fault(all !== eyes, all, `times of ${JSON.stringify(eyes)} eyes`),
    ...fault(allFailed !== failed, allFailed, `times of ${JSON.stringify(failed)} failures`),
  ];
}

function causeFaults({ causes }: AggregateGroup, { bands }: TimeTable): GroupFault[] {
  if (causes === undefined) return [];
  const fits = causes.bands.every(({ from, to, failed }) => {
    const inside = bands.filter((band) => band.from >= from && band.to <= to);
    const sum = inside.reduce((all, band) => all + band.failed, 0);
    return failed.length === causes.names.length && failed.reduce((a, b) => a + b, 0) === sum;
  });
  const inOrder = causes.bands.every(
    ({ from, to }, at) => from <= to && from > (causes.bands[at - 1]?.to ?? -1),
  );
  const sum = causes.bands.reduce((all, { failed }) => failed.reduce((a, b) => a + b, all), 0);
  const isWhole = sum === bands.reduce((all, { failed }) => all + failed, 0);
  const named = new Set(causes.names).size === causes.names.length;
  return fault(
    !fits || !inOrder || !isWhole || !named,
    causes,
    "causes that add up to the failures",
  );
}

/** Counts that no numbers of eyes could add up to, told once. */
function sumFaults(file: AggregatesFile): GroupFault[] {
  const bounds = countBounds(file);
  const impossible = file.groups.filter((group) =>
    quantities.some((name) => {
      const of = bounds.get(keyOfGroup(group))?.[name];
      return of === undefined || of.least > of.most;
    }),
  );
  const labels = [...new Set(impossible.map(labelOf))].slice(0, 6);
  return fault(impossible.length > 0, labels, "groups whose counts add up to those of all eyes");
}

function fault(isWrong: boolean, part: unknown, expected: string): GroupFault[] {
  return isWrong ? [{ part, expected, message: "the counts do not fit together" }] : [];
}
