import type { Arrangement } from "../cases-protocol.ts";

/**
 * The arrangement after a heading was pressed: rising, then falling, then as in the file. Without
 * a column, as in the file.
 */
export function nextSort({ sort, ...rest }: Arrangement, column: string | undefined): Arrangement {
  if (column === undefined) return rest;
  const isSame = sort?.column === column;
  return isSame && sort.descending ? rest : { ...rest, sort: { column, descending: isSame } };
}
