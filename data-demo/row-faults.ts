import type { Cells } from "./cells.ts";
import { rowLine, shortRowLine } from "./csv.ts";
import type { RecordedRow } from "./recorded-row.ts";

/** A fault in a row that is there: the first sound row after the share of the file that fits. */
export interface RowFault {
  readonly name: string;
  readonly wrong: string;
  /** Where to begin looking, as a share of the file. */
  readonly from: number;
  readonly fits: (row: RecordedRow) => boolean;
  /** The lines to write in place of the row. */
  readonly lines: (cells: Cells) => readonly string[];
  /** Which of those lines is at fault, from 0; the first unless said. */
  readonly at?: number;
}

export const rowFaults: readonly RowFault[] = [
  {
    name: "no such day",
    wrong: "last_seen_date is 31 February",
    from: 0.05,
    fits: ({ cells, lastOfEye }) =>
      /^\d{4}-02/.test(cells.last_seen_date ?? "") && isHeld({ cells, lastOfEye }),
    lines: changing(({ last_seen_date }) => ({
      last_seen_date: `${last_seen_date?.slice(0, 4)}-02-31`,
    })),
  },
  {
    name: "age",
    wrong: "age is 203",
    from: 0.12,
    fits: isHeld,
    lines: changing(() => ({ age: "203" })),
  },
  {
    name: "row twice",
    wrong: "the line before it once more",
    from: 0.18,
    fits: isHeld,
    lines: (cells) => [rowLine(cells), rowLine(cells)],
    at: 1,
  },
  {
    name: "last seen too early",
    wrong: "last_seen_date is a year before the visit, so before the operation",
    from: 0.25,
    fits: ({ cells, lastOfEye }) => isHeld({ cells, lastOfEye }) && followedLessThanAYear(cells),
    lines: changing(({ last_seen_date }) => ({ last_seen_date: yearsLater(last_seen_date, -1) })),
  },
  {
    name: "unknown technique",
    wrong: 'technique is "band + tap (see note)"',
    from: 0.31,
    fits: ({ cells, lastOfEye }) =>
      isHeld({ cells, lastOfEye }) && cells.technique === "scleral buckle",
    lines: changing(() => ({ technique: "band + tap (see note)" })),
  },
  {
    name: "no eye",
    wrong: "eye is empty",
    from: 0.38,
    fits: isHeld,
    lines: changing(() => ({ eye: "" })),
  },
  {
    name: "redetachment too early",
    wrong: "redetachment_date is a year early, so before the operation",
    from: 0.44,
    fits: ({ cells }) => cells.operation_number === "1" && cells.redetachment_date !== "",
    lines: changing(({ redetachment_date }) => ({
      redetachment_date: yearsLater(redetachment_date, -1),
    })),
  },
  {
    name: "reoperation alone",
    wrong: "a second operation on an eye whose first is not in the file",
    from: 0.5,
    fits: ({ cells }) => cells.operation_number === "2" && cells.technique === "vitrectomy",
    lines: (cells) => [
      rowLine(cells),
      rowLine({ ...cells, case: "X001", patient: "SM9001", notes: "first done elsewhere" }),
    ],
    at: 1,
  },
  {
    name: "acuity unit",
    wrong: 'acuity after (postop VA) is "logMAR 20"',
    from: 0.56,
    fits: ({ cells, lastOfEye }) => isHeld({ cells, lastOfEye }) && cells.acuity_after !== "",
    lines: changing(() => ({ acuity_after: "logMAR 20" })),
  },
  {
    name: "short row",
    wrong:
      "the cell of smoker is lost: one cell too few, so that those after it have moved; from smoker on nothing is read",
    from: 0.62,
    fits: isHeld,
    lines: (cells) => [shortRowLine(cells, "smoker")],
  },
  {
    name: "detached without a date",
    wrong: "status_last_seen is detached, with no redetachment and no later operation",
    from: 0.67,
    fits: isHeld,
    lines: changing(() => ({ status_last_seen: "detached" })),
  },
  {
    name: "attached with a redetachment",
    wrong: "status_last_seen is attached, with a redetachment and no later operation",
    from: 0.05,
    fits: ({ cells, lastOfEye }) =>
      cells.redetachment_date !== "" && lastOfEye && cells.technique !== "oil removal",
    lines: changing(() => ({ status_last_seen: "attached" })),
  },
  {
    name: "gas where unsuitable",
    wrong: "gas_unsuitable is yes, and gas was used",
    from: 0.73,
    fits: ({ cells, lastOfEye }) => isHeld({ cells, lastOfEye }) && cells.tamponade === "C3F8",
    lines: changing(() => ({ gas_unsuitable: "yes" })),
  },
  {
    name: "oil unaccounted for",
    wrong: "silicone oil put in, attached at the last visit, and no day of removal",
    from: 0.3,
    fits: ({ cells, lastOfEye }) => cells.status_last_seen === "attached under oil" && lastOfEye,
    lines: changing(() => ({ status_last_seen: "attached" })),
  },
  {
    name: "day to come",
    wrong: "last_seen_date is ten years late, after the day of the file",
    from: 0.85,
    fits: ({ cells, lastOfEye }) =>
      isHeld({ cells, lastOfEye }) && cells.last_seen_date?.slice(5) !== "02-29",
    lines: changing(({ last_seen_date }) => ({ last_seen_date: yearsLater(last_seen_date, 10) })),
  },
];

function changing(change: (cells: Cells) => Cells): RowFault["lines"] {
  return (cells) => [rowLine({ ...cells, ...change(cells) })];
}

/** A primary repair whose eye stayed attached, with nothing after it. */
function isHeld({ cells, lastOfEye }: RecordedRow): boolean {
  return (
    cells.operation_number === "1" &&
    cells.status_last_seen === "attached" &&
    cells.death_date === "" &&
    lastOfEye
  );
}

function followedLessThanAYear(cells: Cells): boolean {
  return (cells.last_seen_date ?? "") < yearsLater(cells.operation_date, 1);
}

function yearsLater(date: string | undefined, years: number): string {
  const [year = "", ...rest] = (date ?? "").split("-");
  return [String(Number(year) + years), ...rest].join("-");
}
