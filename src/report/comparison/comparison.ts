import { titleOf } from "../../notebook/notebook-document.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import { type CellCompared, compareCells } from "./compare-cells.ts";
import { compareRows, type RowsCompared } from "./compare-rows.ts";
import { compareWorkings, isReadAlike, type WorkingCompared } from "./compare-workings.ts";

/**
 * A notebook over two files: the same questions and definitions, so that only rows differ; or the
 * notebook as it was over the earlier file, with what of it differs.
 */
export interface Comparison {
  readonly title: string;
  readonly version: string;
  readonly before: ComparedFile;
  readonly after: ComparedFile;
  readonly rows: RowsCompared;
  /** Cells that are worked out otherwise; none where one notebook was worked out over both. */
  readonly workings: readonly WorkingCompared[];
  /** Whether headings, codes and columns worked out are understood alike. */
  readonly isReadAlike: boolean;
  readonly cells: readonly CellCompared[];
}

export interface ComparedFile {
  readonly name: string;
  readonly rowsRead: number;
  readonly rowsLeftOut: number;
}

export interface ComparisonFacts {
  readonly version: string;
  /** Of one file, the period that each session was set to. */
  readonly periods?: readonly string[];
}

/** Both sessions must be settled and have cases; without cases this is our own mistake and throws. */
export function comparisonOf(
  before: NotebookSession<never>,
  after: NotebookSession<never>,
  { version, periods }: ComparisonFacts,
): Comparison {
  const [earlier, later] = [before.caseReading, after.caseReading];
  if (earlier === undefined || later === undefined) throw new Error("a file of cases is missing");
  const rows = compareRows(earlier, later);
  const workings = compareWorkings(before.document, after.document);
  const file = (side: 0 | 1): ComparedFile => {
    const { file: read, rowsRead, leftOut } = side === 0 ? earlier : later;
    const period = periods?.[side];
    const name = period === undefined ? read.name : `${read.name}, ${period}`;
    return { name, rowsRead, rowsLeftOut: leftOut.length };
  };
  return {
    title: titleOf(after.document),
    version,
    before: file(0),
    after: file(1),
    rows,
    workings,
    isReadAlike: isReadAlike(before.document, after.document),
    cells: compareCells(before, after, { rows, workings }),
  };
}
