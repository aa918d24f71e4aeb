import type { TableDrawing } from "../../charts/table-drawing.ts";
import type { GivenArguments, Parameter, RowExpression } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import type { FigureRecord } from "../answer.ts";
import { PickBook } from "../answering/answered-eyes.ts";
import { isBrief } from "../answering/brief.ts";
import { groupRows, type RowGrouping } from "../answering/group-rows.ts";
import { question, textGiven, valueGiven, type Worked } from "../question.ts";
import { countByBrief, countBySentence } from "./count-by-sentence.ts";
import { cellKey, countByTable, type Shares, shares } from "./count-by-table.ts";
import { type CrossCount, crossCount, missingRows, shareOf, turned } from "./cross-count.ts";
import { oneRow, tableAnswer } from "./table-answer.ts";
import { everyRow, type TableValue, tableGiven, tableParameter, withRows } from "./table-value.ts";

/** More than this many rows or columns of counts is no table to read. */
const most = { by: 200, against: 30 };

/**
 * How many of each? Rows counted by one split or by two against each other, with the share of the
 * row and of the column. What is missing is a group of its own, counted in every share unless it
 * is left out.
 */
export const countBy = question(
  {
    name: "count_by",
    meaning: "how many of each, with shares, by one split or two against each other",
    asks: "How many of each?",
    example: "count_by(cases, by: technique, against: macula)",
    parameters: [
      tableParameter,
      { ...splitParameter("by", "what to count by, one row each"), required: true },
      { ...splitParameter("against", "a second split, one column each"), whenLeftOut: "none" },
      {
        name: "shares",
        meaning: "which shares stand beside the counts",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: shares,
        whenLeftOut: `"${shares[0]}"`,
        byNameOnly: true,
      },
      {
        name: "with_missing",
        meaning: "whether what is not recorded is a group of its own",
        takes: "value",
        kinds: ["truth"],
        required: false,
        whenLeftOut: "true",
        byNameOnly: true,
      },
    ],
  },
  work,
);

function splitParameter(name: string, meaning: string): Parameter {
  return { name, meaning, takes: "row", kinds: [], required: false };
}

function work(given: GivenArguments): Worked {
  const known = knownRows(tableGiven(given), given);
  if ("problems" in known) return known;
  const { value } = known;
  const rows = everyRow(value.table);
  const [by, against] = (["by", "against"] as const).map((name) => {
    const split = given.rows.get(name);
    return split === undefined
      ? undefined
      : groupRows(value.table, split, { rows, most: most[name] });
  });
  const problems = [by, against].flatMap((each) =>
    each !== undefined && "problems" in each ? each.problems : [],
  );
  if (by === undefined || "problems" in by || (against && "problems" in against)) {
    return { problems };
  }
  return answer(
    value,
    crossCount(rows, by.grouping, against?.grouping),
    textGiven(given, "shares", shares[0] as Shares),
  );
}

/** The table, without the rows whose group is missing where these are not wanted. */
function knownRows(
  value: TableValue,
  given: GivenArguments,
): { readonly value: TableValue } | { readonly problems: readonly Problem[] } {
  const withMissing = valueGiven(given, "with_missing");
  if (withMissing?.kind !== "truth" || withMissing.truth) return { value };
  let known = value;
  for (const split of [given.rows.get("by"), given.rows.get("against")]) {
    const sifted = split === undefined ? { value: known } : withoutMissing(known, split);
    if ("problems" in sifted) return sifted;
    known = sifted.value;
  }
  return { value: known };
}

function withoutMissing(value: TableValue, split: RowExpression) {
  const rows = everyRow(value.table);
  const grouped = groupRows(value.table, split, { rows, most: Number.POSITIVE_INFINITY });
  if ("problems" in grouped) return grouped;
  const gone = new Set(missingRows(grouped.grouping.groups));
  const reason = `${grouped.grouping.label} not recorded`;
  const leaving = [{ reason, rows: [...gone], asked: false }];
  return {
    value: withRows(
      value,
      rows.filter((row) => !gone.has(row)),
      leaving,
    ),
  };
}

function answer(value: TableValue, counts: CrossCount, shown: Shares): Worked {
  const picks = new PickBook();
  const { by, against } = counts;
  // Words tell the shares that the table shows: of its columns, where only these were asked for.
  const told = shown === "of column" ? turned(counts) : counts;
  const sentence = countBySentence(told, oneRow(value));
  return tableAnswer(
    value,
    {
      question: "count_by",
      asks: "How many of each?",
      sentence,
      ...(isBrief(sentence) ? {} : { brief: countByBrief(told, oneRow(value)) }),
      table: countByTable(counts, shown, picks),
      ...(counts.rows.length === 0
        ? {}
        : { chart: { draw: "table" as const, drawing: drawnCounts(counts, value.unit) } }),
      figures: figuresOf(counts),
      about: [...by.by, ...(against?.by ?? [])],
      ...(against === undefined ? {} : { compares: [...by.by, ...against.by] }),
    },
    picks,
  );
}

function figuresOf({ by, against, rows, cells }: CrossCount): FigureRecord {
  const groups = by.groups.map((group, i) => ({
    group: group.label,
    rows: group.rows.length,
    share: shareOf(group.rows.length, rows.length),
    ...(against === undefined
      ? {}
      : {
          against: against.groups.map((column, j) => {
            const count = cells[i]?.[j]?.length ?? 0;
            return {
              group: column.label,
              rows: count,
              row_share: shareOf(count, group.rows.length),
              column_share: shareOf(count, column.rows.length),
            };
          }),
        }),
  }));
  return {
    rows: rows.length,
    groups,
    not_recorded: missingRows(by.groups).length,
    ...(against === undefined ? {} : { not_recorded_against: missingRows(against.groups).length }),
  };
}

/** The marks lead to the same rows as the table, under the same keys. */
function drawnCounts({ by, against, cells }: CrossCount, unit: string): TableDrawing {
  const split: readonly RowGrouping["groups"][number][] = against?.groups ?? [];
  return {
    as: "bars",
    across: { label: by.label, kind: "groups", names: by.groups.map(({ label }) => label) },
    up: { label: unit, kind: "count" },
    groups: split.map(({ label }) => label),
    ...(against === undefined ? {} : { by: against.label }),
    marks: by.groups.flatMap((group, i) =>
      (against === undefined ? [group.rows] : (cells[i] ?? [])).map((rows, j) => ({
        across: i,
        up: rows.length,
        group: j,
        rows: rows.length,
        ...(rows.length === 0 ? {} : { pick: cellKey(i, against === undefined ? "all" : j) }),
      })),
    ),
  };
}
