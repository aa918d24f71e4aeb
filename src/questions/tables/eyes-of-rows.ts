import type { Table } from "../../cases/table.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";

interface EyesLeaving {
  readonly reason: string;
  readonly rows: readonly number[];
  /** The question itself asked for it. */
  readonly asked: boolean;
}

/**
 * A record of the given eyes in the given order, over their `table`; those that leave are left
 * out with their reason and all their lines, so that the flow from rows to eyes still adds up.
 */
export function eyesOfRows(
  record: EyeRecord,
  rows: readonly number[],
  { table, leaving }: { readonly table: Table; readonly leaving: readonly EyesLeaving[] },
): EyeRecord {
  const linesOf = (eye: number) => record.lines[eye] ?? [];
  const left = leaving.flatMap((each) =>
    each.rows.map((eye) => ({
      reason: each.reason,
      lines: linesOf(eye),
      ...(each.asked ? { asked: true } : {}),
    })),
  );
  return {
    ...record,
    ...renumbered(record, new Map(rows.map((eye, row) => [eye, row]))),
    table,
    time: Float64Array.from(rows, (eye) => record.time[eye] ?? 0),
    event: Uint8Array.from(rows, (eye) => record.event[eye] ?? 0),
    undecided: Uint8Array.from(rows, (eye) => record.undecided[eye] ?? 0),
    state: rows.map((eye) => record.state[eye] ?? "unknown"),
    causes: rows.map((eye) => record.causes[eye] ?? []),
    patient: rows.map((eye) => record.patient[eye] ?? null),
    lines: rows.map(linesOf),
    leftOut: [...record.leftOut, ...left],
    flow: {
      ...record.flow,
      primaryRows: rows.length,
      laterRows: rows.reduce((sum, eye) => sum + Math.max(0, linesOf(eye).length - 1), 0),
    },
  };
}

/** What names eyes of the record, by the rows at which they now stand. */
function renumbered(
  { oil, doubts }: EyeRecord,
  rowOf: ReadonlyMap<number, number>,
): Pick<EyeRecord, "oil" | "doubts"> {
  const stillThere = (eyes: readonly number[]) => eyes.flatMap((eye) => rowOf.get(eye) ?? []);
  return {
    ...(oil === undefined
      ? {}
      : { oil: { eyes: stillThere(oil.eyes), stillIn: stillThere(oil.stillIn) } }),
    ...(doubts === undefined
      ? {}
      : {
          doubts: doubts.flatMap((each) => {
            const eye = rowOf.get(each.eye);
            return eye === undefined ? [] : [{ ...each, eye }];
          }),
        }),
  };
}
