import type { CellHeadline } from "./cell-headline.ts";
import type { Comparison } from "./comparison.ts";

/** The comparison for other programs; numbers unrounded. */
export function comparisonJson(comparison: Comparison): string {
  const { title, version, before, after, rows, cells, workings } = comparison;
  const compared: Record<string, unknown> = Object.create(null);
  for (const cell of cells) {
    compared[cell.name] = {
      ...{ before: headline(cell.before), after: headline(cell.after) },
      ...{ changed: cell.isChanged, why: cell.why },
    };
  }
  const text = JSON.stringify(
    {
      made_by: `Holdfast ${version}`,
      notebook: title,
      before,
      after,
      rows: {
        ...{ by_case_id: rows.hasIds, new: rows.added, gone: rows.gone, corrected: rows.corrected },
        ...{ alike: rows.alike, id_twice: rows.ambiguous },
        ...{ columns_new: rows.columnsAdded, columns_gone: rows.columnsGone },
      },
      definition_changed: workings.length > 0 || !comparison.isReadAlike,
      workings: workings.map(({ name, before: was = null, after: is = null }) => ({
        ...{ cell: name, was, is },
      })),
      read_alike: comparison.isReadAlike,
      cells: compared,
    },
    null,
    2,
  );
  return `${text}\n`;
}

function headline({ text, value }: CellHeadline) {
  return { headline: text, value };
}
