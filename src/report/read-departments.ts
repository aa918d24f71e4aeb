import type { AggregatesFile } from "../aggregates/aggregates-file.ts";
import { readAggregates } from "../aggregates/read-aggregates.ts";
import type { Thing } from "../formula/value.ts";
import type { Problem } from "../problem/problem.ts";
import { departmentsValue } from "../questions/pooling/departments.ts";
import type { NamedDigest, PooledFile } from "./report-input.ts";

/** A file of aggregates as it was given. */
export interface AggregatesGiven extends NamedDigest {
  readonly text: string;
}

/** A file of aggregates that was read, and found to be one. */
export interface DepartmentRead {
  readonly file: PooledFile;
  readonly aggregates: AggregatesFile;
}

/** What workings see as `departments`, and the files for the report. */
export interface DepartmentsRead {
  readonly value: Thing;
  readonly files: readonly PooledFile[];
}

type Refused = { readonly problems: readonly Problem[] };

/** Departments from their files, each read and checked; or what is wrong with any, or between them. */
export function readDepartments(given: readonly AggregatesGiven[]): DepartmentsRead | Refused {
  const read = given.map(readDepartment);
  const problems = read.flatMap((each) => ("problems" in each ? each.problems : []));
  if (problems.length > 0) return { problems };
  return departmentsTogether(read.flatMap((each) => ("problems" in each ? [] : [each])));
}

/** One file, read and checked; or what is wrong with it. */
export function readDepartment({ name, sha256, text }: AggregatesGiven): DepartmentRead | Refused {
  const read = readAggregates(name, text);
  if (!("aggregates" in read)) return read;
  const { aggregates } = read;
  return { file: pooledFile({ name, sha256 }, aggregates), aggregates };
}

/** Departments that were read, as they are pooled; or why they cannot be. */
export function departmentsTogether(read: readonly DepartmentRead[]): DepartmentsRead | Refused {
  const pooled = departmentsValue(read.map(({ aggregates }) => aggregates));
  if ("problems" in pooled) return pooled;
  return { value: pooled.value, files: read.map(({ file }) => file) };
}

function pooledFile({ name, sha256 }: NamedDigest, { unit, groups }: AggregatesFile): PooledFile {
  const eyes = groups[0]?.eyes;
  return { name, sha256, unit, ...(typeof eyes === "number" ? { eyes } : {}) };
}
