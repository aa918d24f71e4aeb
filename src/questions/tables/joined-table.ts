import { type TableColumn, tableOf } from "../../cases/table.ts";
import { counted } from "../answering/wording.ts";
import type { RowMatching } from "./match-rows.ts";
import type { Remark, RowsLeftOut, TableValue } from "./table-value.ts";

interface JoinPlan {
  readonly first: TableValue;
  readonly other: TableValue;
  readonly matching: RowMatching;
  /** The keys as written. */
  readonly on: readonly string[];
  readonly matchedOnly: boolean;
}

/** One row of the first table and its match in the other, null where there is none. */
type Pair = readonly [first: number, other: number | null];

/** The two tables side by side, with what had no match. */
export function joinedTable(plan: JoinPlan): TableValue {
  const { first, other } = plan;
  const pairs = pairsOf(plan);
  return {
    table: tableOf([...columnsOfFirst(plan, pairs), ...columnsOfOther(plan, pairs)]),
    lines: pairs.map(([row, match]) => [
      ...new Set([
        ...(first.lines[row] ?? []),
        ...(match === null ? [] : (other.lines[match] ?? [])),
      ]),
    ]),
    unit: first.unit,
    leftOut: [...first.leftOut, ...leaving(plan)],
    remarks: [...first.remarks, ...other.remarks, ...remarksOn(plan)],
  };
}

/** In the order of the first table. */
function pairsOf({ matching, matchedOnly }: JoinPlan): Pair[] {
  if (matchedOnly) return [...matching.pairs];
  const alone = matching.unmatched.map((row): Pair => [row, null]);
  return [...matching.pairs, ...alone].sort((one, next) => one[0] - next[0]);
}

type NewColumn = Omit<TableColumn, "id">;

function columnsOfFirst({ first }: JoinPlan, pairs: readonly Pair[]): NewColumn[] {
  return first.table.columns.map(({ id: _, ...column }) => ({
    ...column,
    values: pairs.map(([row]) => column.values[row] ?? null),
  }));
}

/** Without the keys, which are the same; a name that the first table has gets a number. */
function columnsOfOther({ first, other, on }: JoinPlan, pairs: readonly Pair[]): NewColumn[] {
  const taken = new Set(first.table.positions.keys());
  return other.table.columns.flatMap(({ id: _, ...column }): NewColumn[] => {
    if (on.includes(column.name)) return [];
    const name = freeName(column.name, taken);
    taken.add(name);
    const label = name === column.name ? column.label : `${column.label}, other table`;
    const values = pairs.map(([, match]) =>
      match === null ? null : (column.values[match] ?? null),
    );
    return [{ ...column, name, label, values }];
  });
}

function freeName(name: string, taken: ReadonlySet<string>): string {
  let free = name;
  for (let n = 2; taken.has(free); n++) free = `${name}_${n}`;
  return free;
}

function leaving({ first, other, matching, on, matchedOnly }: JoinPlan): RowsLeftOut[] {
  const key = on.join(", ");
  const ours = {
    reason: `no row of the other table with the same ${key}`,
    lines: matchedOnly ? matching.unmatched.map((row) => first.lines[row] ?? []) : [],
    asked: false,
  };
  const theirs = {
    reason: `in the other table, no row of the first with the same ${key}`,
    lines: matching.unmatchedOther.map((row) => other.lines[row] ?? []),
    asked: false,
  };
  return [ours, theirs].filter(({ lines }) => lines.length > 0);
}

function remarksOn({ matching, matchedOnly }: JoinPlan): Remark[] {
  const alone = matchedOnly ? 0 : matching.unmatched.length;
  const many = matching.repeated.length;
  return [
    ...(alone === 0
      ? []
      : [
          {
            code: "rows-without-match",
            text: `${counted(alone, "row")} of the first table ${alone === 1 ? "has" : "have"} no match: the added columns are missing there.`,
          },
        ]),
    ...(many === 0
      ? []
      : [
          {
            code: "rows-repeated",
            text: `${counted(many, "row")} of the first table ${many === 1 ? "has" : "have"} several matches and ${many === 1 ? "stands" : "stand"} once for each: counts of rows are counts of matches.`,
          },
        ]),
  ];
}
