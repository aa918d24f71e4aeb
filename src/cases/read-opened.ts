import type { Problem } from "../problem/problem.ts";
import type { LowVisionTable } from "./acuity.ts";
import { withAgeFromBirth } from "./age-from-birth.ts";
import type { FileFacts, LeftOutRow, MatchedColumn } from "./case-reading.ts";
import type { LaidCorrections } from "./corrections/lay-corrections.ts";
import { withQuadrants } from "./made-columns.ts";
import type { Matching } from "./matching.ts";
import { matchingToKeep } from "./matching-to-keep.ts";
import type { ReadableCases } from "./open-cases.ts";
import { readColumns } from "./read-columns.ts";
import type { UncheckedCases } from "./unchecked-cases.ts";

export interface ReadOptions {
  readonly matching?: Matching | undefined;
  readonly lowVision?: LowVisionTable | undefined;
}

/** The cases of one file with their values read, before rows are checked against each other. */
export interface FileCases {
  readonly facts: FileFacts;
  readonly cases: UncheckedCases;
  readonly rowsRead: number;
  readonly leftOut: readonly LeftOutRow[];
  readonly matching: Matching;
  readonly columns: readonly MatchedColumn[];
  /** Of the file and of its values. */
  readonly problems: readonly Problem[];
}

/** An opened file of which cases can be read, with the corrections laid over it. */
export interface CorrectedCases {
  readonly opened: ReadableCases;
  readonly laid: LaidCorrections;
}

/** Reads the values of a file. */
export function readOpened({ opened, laid }: CorrectedCases, options: ReadOptions): FileCases {
  const { facts, matched } = opened;
  const { table, plans, patients } = laid;
  const { matching, lowVision } = options;
  const { delimiter } = facts;
  const read = readColumns(table, plans, { delimiter, matching, lowVision, patients });
  const orders = new Set([...read.settled.values()].flatMap(({ dayOrder }) => dayOrder ?? []));
  const dayOrder = orders.size === 1 ? [...orders][0] : undefined;
  const aged = withAgeFromBirth(withQuadrants(read.columns), { table, plans, dayOrder });
  const { headings } = matched.table;
  const inFile = plans.slice(0, headings.length);
  const columns = read.matched.slice(0, headings.length);
  return {
    facts,
    cases: { columns: aged.columns, rows: { files: [facts.name], lines: table.lines } },
    rowsRead: matched.rowsRead,
    leftOut: matched.leftOut,
    matching: matchingToKeep({ headings, plans: inFile, settled: read.settled }, matching),
    columns: columns.map((column) => countLeftOut(column, matched.leftOut.length)),
    problems: [...opened.problems, ...read.problems, ...aged.problems],
  };
}

/** Rows that are no cases have no values: they are missing. */
function countLeftOut(column: MatchedColumn, leftOut: number): MatchedColumn {
  return column.by === "dropped" ? column : { ...column, missing: column.missing + leftOut };
}
