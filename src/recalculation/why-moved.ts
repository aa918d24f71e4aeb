import type { Footing } from "../notebook/footing.ts";

/**
 * What is different from when a number was minuted, in words; none where nothing is. `now` counts
 * the rows up to the day that those of `then` reach; `rows` are all there are now.
 */
export function whyMoved(
  then: Footing,
  now: Footing,
  { rows }: { readonly rows: number },
): readonly string[] {
  return [
    ...rowReasons(then, now, rows - now.rows.count),
    ...correctionReasons(then.corrections, now.corrections),
    ...workingReasons(then.workings, now.workings),
    ...(then.version === now.version
      ? []
      : [`the software is version ${now.version}, it was ${then.version}`]),
  ];
}

/** Of operations in the time that was looked at then, and of those after it. */
function rowReasons(then: Footing, now: Footing, later: number): readonly string[] {
  const more = now.rows.count - then.rows.count;
  const earlier = later === 0 && more <= 0 ? "" : " of that time";
  return [
    ...(later > 0 ? [`${rows(later)} new, of later operations`] : []),
    ...(more > 0 ? [`${rows(more)} new${earlier}`] : []),
    ...(more < 0 ? [`${rows(-more)} gone`] : []),
    ...(more === 0 && now.rows.digest !== then.rows.digest
      ? [`rows${earlier} have other values than then`]
      : []),
  ];
}

function correctionReasons(then: number, now: number): readonly string[] {
  if (now === then) return [];
  return [
    `${now} ${now === 1 ? "correction lies" : "corrections lie"} over the file, then ${then}`,
  ];
}

type Workings = Footing["workings"];

function workingReasons(then: Workings, now: Workings): readonly string[] {
  const cells = [...new Set([...then.keys(), ...now.keys()])].sort();
  const isChanged = (cell: string) =>
    then.has(cell) && now.has(cell) && then.get(cell) !== now.get(cell);
  return [
    ...told("the definition changed: another working of", cells.filter(isChanged)),
    ...told(
      "the definition changed: it does not rest any more on",
      cells.filter((cell) => !now.has(cell)),
    ),
    ...told(
      "the definition changed: it rests now on",
      cells.filter((cell) => !then.has(cell)),
    ),
  ];
}

function told(what: string, cells: readonly string[]): readonly string[] {
  return cells.length === 0 ? [] : [`${what} ${cells.join(", ")}`];
}

function rows(count: number): string {
  return count === 1 ? "1 row" : `${count} rows`;
}
