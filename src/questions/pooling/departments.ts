import type { AggregateGroup, AggregatesFile } from "../../aggregates/aggregates-file.ts";
import { smallerGroups } from "../../aggregates/aggregates-file.ts";
import { countBounds, type GroupBounds, keyOfGroup } from "../../aggregates/count-bounds.ts";
import type { Thing } from "../../formula/value.ts";
import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { textGiven, thingGiven } from "../question.ts";

/** What all departments have of one group of eyes. */
export interface PooledGroup {
  readonly label: string;
  readonly parts: readonly DepartmentPart[];
}

/** What one department has of a group. */
export interface DepartmentPart {
  readonly file: AggregatesFile;
  readonly bounds: GroupBounds;
  /** Absent where the department names no such group: it has none, or fewer than its threshold. */
  readonly group?: AggregateGroup;
}

export const departmentsParameter: Parameter = {
  name: "departments",
  meaning: "the aggregates of the departments that were opened",
  takes: "value",
  kinds: ["departments"],
  required: true,
};

export const byColumnParameter: Parameter = {
  name: "by",
  meaning: 'split the eyes by a column that the departments grouped by: "technique"',
  takes: "value",
  kinds: ["text"],
  required: false,
  whenLeftOut: "all eyes together",
};

export function departmentsGiven(given: GivenArguments): readonly AggregatesFile[] {
  return thingGiven(given, "departments").content as readonly AggregatesFile[];
}

/**
 * Departments as workings see them, or why they cannot be pooled: another definition or window,
 * or the same department twice.
 */
export function departmentsValue(
  files: readonly AggregatesFile[],
): { readonly value: Thing } | { readonly problems: readonly Problem[] } {
  const problems = [...differences(files), ...sameTwice(files)];
  if (problems.length > 0) return { problems };
  const count = { kind: "number", number: files.length } as const;
  const parts = new Map([["departments", count]]);
  return { value: { kind: "thing", of: "departments", parts, content: files } };
}

const compared = [
  ["failure", "what counts as a failure"],
  ["oil", "how eyes with silicone oil are followed"],
  ["undecided", "how undecided eyes are counted"],
  ["days", "the window in days"],
  ["eyes", "whether eyes were chosen by a condition"],
] as const;

function differences(files: readonly AggregatesFile[]): Problem[] {
  return compared.flatMap(([key, words]) => {
    const found = [...new Set(files.map(({ definition }) => String(definition[key])))];
    if (found.length < 2) return [];
    return [
      {
        code: "definitions-differ",
        severity: "stop",
        place: { field: `definition.${key}` },
        message: `the departments differ in ${words}`,
        found: files.map(({ unit, definition }) => `${unit}: ${definition[key]}`).join("; "),
        expected: "the same in every department",
        remedy: "agree on one and let each department write its aggregates again",
      },
    ];
  });
}

function sameTwice(files: readonly AggregatesFile[]): Problem[] {
  const units = files.map(({ unit }) => unit);
  const twice = units.find((unit, at) => units.indexOf(unit) !== at);
  if (twice === undefined) return sameCounts(files);
  const periods = files.flatMap(({ unit, period = "no period" }) => (unit === twice ? period : []));
  return [
    {
      code: "department-twice",
      severity: "stop",
      place: { field: "unit" },
      message: "two files are of the same department: its eyes would count twice",
      found: `${twice}: ${periods.join("; ")}`,
      expected: "one file of each department, over its whole period",
      remedy:
        "leave one out; of two periods ask for one file, since an eye of one may be followed " +
        "in the other; or, if they are two departments, let each give a name of its own",
    },
  ];
}

/** The same counts and times under two names are one department's. */
function sameCounts(files: readonly AggregatesFile[]): Problem[] {
  const counts = files.map(({ groups }) =>
    groups[0]?.times === undefined ? undefined : JSON.stringify(groups),
  );
  const again = counts.findIndex((each, at) => each !== undefined && counts.indexOf(each) !== at);
  if (again < 0) return [];
  const units = [counts.indexOf(counts[again]), again].map((at) => files[at]?.unit ?? "");
  return [
    {
      code: "department-twice",
      severity: "stop",
      place: { field: "groups" },
      message: "two files have the same counts and times: their eyes would count twice",
      found: units.join(" and "),
      expected: "files of different eyes",
      remedy: "leave one out",
    },
  ];
}

/** All eyes, or the groups of the column asked for, by their label. */
export function pooledGroups(
  files: readonly AggregatesFile[],
  given: GivenArguments,
): { readonly groups: readonly PooledGroup[] } | { readonly problems: readonly Problem[] } {
  const column = textGiven<string>(given, "by", "");
  if (column === "") return { groups: [pooledGroup(files, "all eyes", [])] };
  const values = files.map((file) => valuesOf(file, column));
  const lacking = files.filter((_, at) => values[at]?.length === 0);
  if (lacking.length > 0) return { problems: [notGrouped(given, column, lacking)] };
  const labels = [...new Set(values.flat())].filter((value) => value !== smallerGroups).sort();
  return {
    groups: labels.map((value) => pooledGroup(files, value, [{ column, value }])),
  };
}

function valuesOf({ groups }: AggregatesFile, column: string): string[] {
  return groups.flatMap(({ by: [first, ...rest] }) =>
    first?.column === column && rest.length === 0 ? [first.value] : [],
  );
}

export function pooledGroup(
  files: readonly AggregatesFile[],
  label: string,
  by: AggregateGroup["by"],
): PooledGroup {
  return { label, parts: files.map((file) => partOf(file, by)) };
}

/**
 * The eyes of a file together are all its eyes, so what is not named is none, or too few: eyes of fewer
 * patients than its smallest count, each of whom may give two.
 */
function partOf(file: AggregatesFile, by: AggregateGroup["by"]): DepartmentPart {
  const key = keyOfGroup({ by });
  const group = file.groups.find((each) => keyOfGroup(each) === key);
  const bounds = countBounds(file).get(key);
  if (group !== undefined && bounds !== undefined) return { file, group, bounds };
  const column = by[0]?.column ?? "";
  const hasSmaller = valuesOf(file, column).includes(smallerGroups);
  const box = { least: 0, most: hasSmaller ? 2 * (file.smallest_count - 1) : 0 };
  return { file, bounds: { eyes: box, failed: box, held: box, unknown: box } };
}

function notGrouped(
  given: GivenArguments,
  column: string,
  lacking: readonly AggregatesFile[],
): Problem {
  const columns = lacking[0]?.groups.flatMap(({ by }) => (by.length === 1 ? by : [])) ?? [];
  return {
    code: "not-grouped-by",
    severity: "stop",
    place: { span: given.values.get("by")?.span ?? given.span },
    message: `${lacking.map(({ unit }) => unit).join(", ")} did not group by ${column}`,
    found: column,
    expected: `one of ${[...new Set(columns.map((each) => each.column))].join(", ")}`,
    remedy: `ask for aggregates written with --by ${column}`,
  };
}
