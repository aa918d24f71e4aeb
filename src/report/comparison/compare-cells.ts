import type { CaseReading } from "../../cases/case-reading.ts";
import { columnNamed } from "../../cases/table.ts";
import { definitionNamed, definitionsOf } from "../../notebook/notebook-document.ts";
import type { Answered } from "../../questions/answer.ts";
import { counted } from "../../questions/answering/wording.ts";
import { settingOf } from "../../questions/settings/setting-of.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import { type CellHeadline, cellHeadline } from "./cell-headline.ts";
import type { RowsCompared } from "./compare-rows.ts";
import { cellsBehind, type WorkingCompared } from "./compare-workings.ts";

export interface CellCompared {
  readonly name: string;
  readonly before: CellHeadline;
  readonly after: CellHeadline;
  readonly isChanged: boolean;
  /** Why it changed, or could have, by the workings and the rows behind it; empty where nothing is different. */
  readonly why: readonly string[];
}

type Session = NotebookSession<never>;

/** What differs between the two sides besides the answers. */
export interface Differences {
  readonly rows: RowsCompared;
  readonly workings: readonly WorkingCompared[];
}

/** Every answer and number that both sheets have, in the order of the later one. */
export function compareCells(
  before: Session,
  after: Session,
  { rows, workings }: Differences,
): CellCompared[] {
  return definitionsOf(after.document).flatMap(({ name, working }) => {
    if (settingOf(working) !== undefined) return [];
    if (definitionNamed(before.document, name) === undefined) return [];
    const earlier = cellHeadline(before.sheet.state(name));
    const later = cellHeadline(after.sheet.state(name));
    if (earlier === undefined || later === undefined) return [];
    const isChanged = earlier.text !== later.text || !Object.is(earlier.value, later.value);
    const cells = cellsBehind(name, [before, after]);
    const defined = workings.flatMap((each) => (cells.has(each.name) ? [each.name] : []));
    const behind = {
      before: idsBehind(earlier.answered, before.caseReading),
      after: idsBehind(later.answered, after.caseReading),
    };
    const why = [...definitionReasons(defined), ...rowReasons(behind, rows)];
    return [{ name, before: earlier, after: later, isChanged, why }];
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

function definitionReasons(names: readonly string[]): string[] {
  if (names.length === 0) return [];
  return [`definition changed: ${names.join(", ")}`];
}

function rowReasons(
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
