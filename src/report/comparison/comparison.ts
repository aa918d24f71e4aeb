import { titleOf } from "../../notebook/notebook-document.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import { type CellCompared, compareCells } from "./compare-cells.ts";
import { compareRows, type RowsCompared } from "./compare-rows.ts";

/** One notebook over two files: the same questions and definitions, so that only rows differ. */
export interface Comparison {
  readonly title: string;
  readonly version: string;
  readonly before: ComparedFile;
  readonly after: ComparedFile;
  readonly rows: RowsCompared;
  readonly cells: readonly CellCompared[];
}

export interface ComparedFile {
  readonly name: string;
  readonly rowsRead: number;
  readonly rowsLeftOut: number;
}

/** Both sessions must be settled and have cases; without cases this is our own mistake and throws. */
export function comparisonOf(
  before: NotebookSession<never>,
  after: NotebookSession<never>,
  version: string,
): Comparison {
  const [earlier, later] = [before.caseReading, after.caseReading];
  if (earlier === undefined || later === undefined) throw new Error("a file of cases is missing");
  const rows = compareRows(earlier, later);
  const file = ({ file: { name }, rowsRead, leftOut }: typeof earlier): ComparedFile => ({
    ...{ name, rowsRead },
    rowsLeftOut: leftOut.length,
  });
  return {
    title: titleOf(before.document),
    version,
    before: file(earlier),
    after: file(later),
    rows,
    cells: compareCells(before, after, rows),
  };
}
