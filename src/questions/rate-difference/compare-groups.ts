import type { GivenArguments } from "../../formula/vocabulary.ts";
import { chiSquareTest } from "../../statistics/chi-square-test.ts";
import { cochranArmitage } from "../../statistics/cochran-armitage.ts";
import { fisherExactTable } from "../../statistics/fisher-table.ts";
import type { ChosenGroups } from "../answering/chosen-groups.ts";
import { type Group, type Grouping, notRecorded } from "../answering/grouping.ts";
import { toleranceGiven } from "../answering/window.ts";
import { type GroupRate, rateOfGroup } from "../failure-rate/rate-of-group.ts";
import { valueGiven } from "../question.ts";
import { acrossStrata, type StrataCompared } from "./across-strata.ts";
import { type CompareOptions, compareTwo, type TestOffered } from "./compare-two.ts";
import type { DifferenceParts } from "./rate-difference-parts.ts";

/** What is to be compared, and how. */
export interface ComparisonRequest {
  readonly chosen: ChosenGroups;
  readonly strata: Grouping | undefined;
  readonly options: CompareOptions;
  readonly given: GivenArguments;
}

/**
 * The rates of the groups and their comparisons. Two groups stand in the order of the difference:
 * first less second.
 */
export function compareGroups({
  chosen,
  strata,
  options,
  given,
}: ComparisonRequest): DifferenceParts {
  const { record, window } = options;
  const rateOf = rateWith(options, given);
  const kept = keptEyes(chosen, strata);
  const reference = kept[chosen.reference];
  const ordered = kept.length === 2 && chosen.reference === 0 ? [...kept].reverse() : [...kept];
  const groups = ordered.map(rateOf);
  const against = groups[reference === undefined ? -1 : ordered.indexOf(reference)];
  const compared =
    against === undefined
      ? []
      : groups.filter((one) => one !== against).map((one) => compareTwo(one, against, options));
  return {
    record,
    grouping: chosen.grouping,
    window,
    tolerance: toleranceGiven(record, given),
    groups,
    reference: against,
    compared,
    overall: groups.length > 2 ? overallTest(groups, options.test) : undefined,
    trend: orderedGiven(given) ? trendOf(groups) : undefined,
    strata: strata === undefined ? undefined : strataOf(strata, ordered, { rateOf, options }),
  };
}

function rateWith(options: CompareOptions, given: GivenArguments): (group: Group) => GroupRate {
  const { record, window } = options;
  return (group) =>
    rateOfGroup(record, group, {
      ...(window === undefined ? {} : { window }),
      tolerance: toleranceGiven(record, given),
      method: "Wilson",
    });
}

/** The groups without eyes whose stratum is not recorded. */
function keptEyes({ grouping }: ChosenGroups, strata: Grouping | undefined): readonly Group[] {
  const silent = new Set(strata?.groups.find(({ label }) => label === notRecorded)?.eyes);
  return grouping.groups.map(({ label, eyes }) => ({
    label,
    eyes: eyes.filter((eye) => !silent.has(eye)),
  }));
}

function strataOf(
  strata: Grouping,
  groups: readonly Group[],
  how: { rateOf: (group: Group) => GroupRate; options: CompareOptions },
): StrataCompared | undefined {
  const [first, second] = groups;
  if (first === undefined || second === undefined) return undefined;
  const within = (group: Group, members: ReadonlySet<number>): GroupRate =>
    how.rateOf({ label: group.label, eyes: group.eyes.filter((eye) => members.has(eye)) });
  const compared = strata.groups
    .filter(({ label }) => label !== notRecorded)
    .map(({ label, eyes }) => {
      const members = new Set(eyes);
      const pair = [within(first, members), within(second, members)] as const;
      return { label, compared: compareTwo(...pair, how.options) };
    });
  return acrossStrata(strata.label ?? "strata", compared, how.options.test);
}

export function orderedGiven(given: GivenArguments): boolean {
  const ordered = valueGiven(given, "ordered");
  return ordered?.kind === "truth" && ordered.truth;
}

/** With more groups than this the exact test takes longer than it is worth. */
const mostForExact = 6;

/** All groups at once: exact where an expected count is under 5 and the table is not too large. */
function overallTest(groups: readonly GroupRate[], asked: TestOffered): DifferenceParts["overall"] {
  const table = groups.map(({ failed, eyes }) => [failed, eyes - failed]);
  const plain = chiSquareTest(table);
  if (plain.degreesOfFreedom === 0) return undefined;
  const { degreesOfFreedom, leastExpected } = plain;
  const wantsExact =
    asked === "by expected counts" ? leastExpected < 5 : asked.startsWith("Fisher");
  const exact = wantsExact && groups.length <= mostForExact ? fisherExactTable(table) : null;
  if (exact !== null) return { name: "Fisher's exact test", p: exact, degreesOfFreedom };
  const sparse = leastExpected < 5 ? " (some expected counts are under 5)" : "";
  const name = `chi-square test on ${degreesOfFreedom} degrees of freedom${sparse}`;
  return { name, p: plain.pValue, degreesOfFreedom };
}

function trendOf(groups: readonly GroupRate[]) {
  return cochranArmitage(groups.map(({ failed, eyes }) => ({ failed, total: eyes })));
}
