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

/** What workings see as `departments`, and the files for the report. */
export interface DepartmentsRead {
  readonly value: Thing;
  readonly files: readonly PooledFile[];
}

/** Departments from their files, each read and checked; or what is wrong with any, or between them. */
export function readDepartments(
  given: readonly AggregatesGiven[],
): DepartmentsRead | { readonly problems: readonly Problem[] } {
  const read = given.map((file) => ({ file, ...readAggregates(file.name, file.text) }));
  const problems = read.flatMap((each) => each.problems);
  if (problems.length > 0) return { problems };
  const departments = read.flatMap((each) => ("aggregates" in each ? [each.aggregates] : []));
  const pooled = departmentsValue(departments);
  if ("problems" in pooled) return pooled;
  const files = read.flatMap((each) =>
    "aggregates" in each ? [pooledFile(each.file, each.aggregates)] : [],
  );
  return { value: pooled.value, files };
}

function pooledFile({ name, sha256 }: NamedDigest, { unit, groups }: AggregatesFile): PooledFile {
  const eyes = groups[0]?.eyes;
  return { name, sha256, unit, ...(typeof eyes === "number" ? { eyes } : {}) };
}
