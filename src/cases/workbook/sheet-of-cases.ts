import { fieldBySpelling } from "../heading-spelling.ts";
import type { Sheet, Workbook } from "./open-workbook.ts";

/** Headings stand at most this many rows from the top. */
const searched = 20;

/**
 * The sheet that most looks like a table of cases: the one with the most known headings in a row;
 * of several alike the one with the most rows, else the first. Undefined where all are empty.
 */
export function sheetOfCases({ sheets }: Workbook): Sheet | undefined {
  let best: Sheet | undefined;
  let most = -1;
  for (const sheet of sheets) {
    if (sheet.rows.length === 0) continue;
    const known = knownHeadings(sheet);
    const isBetter = known === most && sheet.rows.length > best!.rows.length;
    if (known > most || isBetter) [best, most] = [sheet, known];
  }
  return best;
}

function knownHeadings({ rows }: Sheet): number {
  const counts = rows.slice(0, searched).map((row) => {
    const written = new Set(row.filter((value) => typeof value === "string"));
    return [...written].filter((heading) => fieldBySpelling(heading) !== undefined).length;
  });
  return Math.max(0, ...counts);
}
