import type { CaseReading } from "../../cases/case-reading.ts";
import { columnNamed } from "../../cases/table.ts";
import { definitionsOf } from "../../notebook/notebook-document.ts";
import type { Answered } from "../../questions/answer.ts";
import { counted } from "../../questions/answering/wording.ts";
import { settingOf } from "../../questions/settings/setting-of.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import { type CellHeadline, cellHeadline } from "./cell-headline.ts";
import type { RowsCompared } from "./compare-rows.ts";

export interface CellCompared {
  readonly name: string;
  readonly before: CellHeadline;
  readonly after: CellHeadline;
  readonly isChanged: boolean;
  /** Why it changed, or could have, by the rows behind it; empty where nothing is different. */
  readonly why: readonly string[];
}

type Session = NotebookSession<never>;

/** Every answer and number of the sheet over two files, in the order of the sheet. */
export function compareCells(before: Session, after: Session, rows: RowsCompared): CellCompared[] {
  return definitionsOf(before.document).flatMap(({ name, working }) => {
    if (settingOf(working) !== undefined) return [];
    const earlier = cellHeadline(before.sheet.state(name));
    const later = cellHeadline(after.sheet.state(name));
    if (earlier === undefined || later === undefined) return [];
    const isChanged = earlier.text !== later.text || !Object.is(earlier.value, later.value);
    const behind = {
      before: idsBehind(earlier.answered, before.caseReading),
      after: idsBehind(later.answered, after.caseReading),
    };
    return [{ name, before: earlier, after: later, isChanged, why: reasons(behind, rows) }];
  });
}

/** The ids of the rows behind all that an answer counts. */
function idsBehind(
  answered: Answered | undefined,
  reading: CaseReading | undefined,
): ReadonlySet<string> {
  const ids = reading === undefined ? undefined : columnNamed(reading.cases, "case")?.values;
  if (answered === undefined || reading === undefined || ids === undefined) return new Set();
  const idAt = new Map(reading.lines.map((line, row) => [line, ids[row]]));
  const found = new Set<string>();
  for (const { rows } of answered.picks.values()) {
    for (const { lines } of answered.record.describe(rows).rows) {
      for (const line of lines) {
        const id = idAt.get(line);
        if (typeof id === "string") found.add(id);
      }
    }
  }
  return found;
}

function reasons(
  behind: { readonly before: ReadonlySet<string>; readonly after: ReadonlySet<string> },
  rows: RowsCompared,
): string[] {
  const { before, after } = behind;
  const added = rows.added.filter((id) => after.has(id)).length;
  const gone = rows.gone.filter((id) => before.has(id)).length;
  const corrected = rows.corrected.filter(({ id }) => before.has(id) || after.has(id)).length;
  const known = new Set([...rows.added, ...rows.gone, ...rows.corrected.map(({ id }) => id)]);
  const moved = [...new Set([...before, ...after])].filter(
    (id) => before.has(id) !== after.has(id) && !known.has(id),
  ).length;
  return [
    ...(added > 0 ? [`${counted(added, "row")} behind it new`] : []),
    ...(gone > 0 ? [`${counted(gone, "row")} gone`] : []),
    ...(corrected > 0 ? [`${counted(corrected, "row")} corrected`] : []),
    ...(moved > 0 ? [`${counted(moved, "row")} unchanged but counted in one of them only`] : []),
  ];
}
