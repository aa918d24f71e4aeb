import type { Table } from "../cases/table.ts";
import { formatWorking } from "../formula/format.ts";
import type { Footing } from "../notebook/footing.ts";
import { definitionNamed, type NotebookDocument } from "../notebook/notebook-document.ts";
import { digestOf, digitsOf } from "./digest.ts";
import { lastOperationDay, rowsUpTo } from "./rows-up-to.ts";
import type { Sheet } from "./sheet.ts";

/** All that the value of a cell can come from. */
export interface Ground {
  readonly cases: Table;
  readonly corrections: number;
  readonly document: NotebookDocument;
  readonly sheet: Sheet;
  readonly version: string;
}

/** What a cell rests on as things are: the rows up to that day, or all of them without one. */
export function footingOf(cell: string, ground: Ground, upTo?: number | null): Footing {
  const { cases, corrections, version } = ground;
  const lastDay = upTo === undefined ? lastOperationDay(cases) : upTo;
  return {
    rows: rowsUpTo(cases, lastDay),
    ...{ corrections, version },
    workings: workingsBehind(cell, ground),
  };
}

/** Whether one of the inputs feeds the cell, through whatever other cells. */
export function isFedBy(
  cell: string,
  inputs: readonly string[],
  { document, sheet }: Pick<Ground, "document" | "sheet">,
): boolean {
  const behind = cellsBehind(cell, { document, sheet });
  return [...behind].some((name) => {
    const { from } = sheet.feeds(name);
    return from.some((feed) => inputs.includes(feed) && !behind.has(feed));
  });
}

/** Digests of the workings of a cell and of all that feed it, as they would be formatted. */
function workingsBehind(cell: string, { document, sheet }: Ground): ReadonlyMap<string, string> {
  const digest = (name: string) => {
    const working = formatWorking(definitionNamed(document, name)?.working ?? "");
    return digitsOf(digestOf(working)).slice(0, 6);
  };
  const found = [...cellsBehind(cell, { document, sheet })];
  return new Map(found.sort().map((name) => [name, digest(name)]));
}

/** The cell and all cells that feed it; inputs are not among them. */
function cellsBehind(
  cell: string,
  { document, sheet }: Pick<Ground, "document" | "sheet">,
): ReadonlySet<string> {
  const found = new Set([cell]);
  for (const name of found) {
    if (definitionNamed(document, name) === undefined) found.delete(name);
    else for (const feed of sheet.feeds(name).from) found.add(feed);
  }
  return found;
}
