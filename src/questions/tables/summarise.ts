import type { TableDrawing } from "../../charts/table-drawing.ts";
import type { GivenArguments, RowExpression, RowValue } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Figure, FigureRecord } from "../answer.ts";
import { PickBook } from "../answering/answered-eyes.ts";
import { groupRows, type RowGrouping } from "../answering/group-rows.ts";
import { question, type Worked } from "../question.ts";
import { type Summaries, summariseSentence } from "./summarise-sentence.ts";
import { groupKey, summariseTable } from "./summarise-table.ts";
import { type Summary, summaryOf } from "./summary.ts";
import { oneRow, smallShares, tableAnswer } from "./table-answer.ts";
import { everyRow, type TableValue, tableGiven, tableParameter } from "./table-value.ts";

/** More groups than this is a list, not a summary. */
const mostGroups = 200;

/**
 * What is typical? Each working sums up the rows of every group and of all together. Missing
 * values are left out of a summary and counted beside it; rows whose group is missing are a group.
 */
export const summarise = question(
  {
    name: "summarise",
    meaning: "medians, shares and the like of all rows or of groups, with what is missing",
    asks: "What is typical?",
    example: 'summarise(cases, median(age), share(macula = "off"), by: technique)',
    parameters: [
      tableParameter,
      {
        name: "summaries",
        meaning: "what to work out, with or without a name: median(age), oldest: max(age)",
        takes: "row",
        kinds: [],
        required: true,
        repeated: true,
        freeNames: true,
      },
      {
        name: "by",
        meaning: "split the rows by a column or an expression over columns",
        takes: "row",
        kinds: [],
        required: false,
        whenLeftOut: "all rows together",
        byNameOnly: true,
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const value = tableGiven(given);
  const rows = everyRow(value.table);
  const by = given.rows.get("by");
  const grouped =
    by === undefined ? undefined : groupRows(value.table, by, { rows, most: mostGroups });
  if (grouped !== undefined && "problems" in grouped) return grouped;
  const split = grouped?.grouping;
  const groups = [...(split?.groups ?? []).map((group) => group.rows), rows];
  const tied = (given.repeated as readonly RowExpression[]).map((working) =>
    summaryOf(value.table, working, groups),
  );
  const problems: readonly Problem[] = tied.flatMap((each) =>
    "problems" in each ? each.problems : [],
  );
  if (problems.length > 0) return { problems };
  const summaries = tied.flatMap((each) => ("problems" in each ? [] : [each]));
  return answer(value, { split, rows, summaries, one: oneRow(value) });
}

function answer(value: TableValue, parts: Summaries): Worked {
  const picks = new PickBook();
  const { split, summaries } = parts;
  const drawing = split === undefined ? undefined : drawnSummary(split, summaries[0]);
  return tableAnswer(
    value,
    {
      question: "summarise",
      asks: "What is typical?",
      sentence: summariseSentence(parts),
      table: summariseTable(parts, picks),
      ...(drawing === undefined ? {} : { chart: { draw: "table" as const, drawing } }),
      figures: figuresOf(parts),
      about: [...(split?.by ?? []), ...summaries.flatMap(({ names }) => names)],
      compares: split?.by ?? [],
      cautions: summaries.some(({ kind }) => kind === "share")
        ? smallShares(
            value,
            (split?.groups ?? [{ rows: parts.rows }]).map(({ rows }) => rows.length),
          )
        : [],
    },
    picks,
  );
}

/** The named summaries of all rows by their name, then those of every group. */
function figuresOf({ split, rows, summaries }: Summaries): FigureRecord {
  const groups = split?.groups ?? [];
  const named = summaries.flatMap((summary): [string, Figure][] =>
    summary.name === undefined ? [] : [[summary.name, figureOf(summary.at(groups.length))]],
  );
  const all: [string, Figure][] = [
    ["rows", rows.length],
    ["summaries", summariesOf(summaries, groups.length)],
    ...(split === undefined
      ? []
      : [
          [
            "groups",
            groups.map((group, i) => ({
              group: group.label,
              rows: group.rows.length,
              summaries: summariesOf(summaries, i),
            })),
          ] satisfies [string, Figure],
        ]),
  ];
  return Object.fromEntries([...named, ...all]);
}

function summariesOf(summaries: readonly Summary[], group: number): Figure {
  return summaries.map((summary) => ({
    summary: summary.label,
    value: figureOf(summary.at(group)),
    missing: summary.missingIn(group),
  }));
}

function figureOf(held: RowValue): Figure {
  return typeof held === "object" && held !== null ? held.map(figureOf) : held;
}

/** Bars of the first summary, where it is a number; groups without one have no bar. */
function drawnSummary(split: RowGrouping, summary: Summary | undefined): TableDrawing | undefined {
  if (summary === undefined || !drawnKinds.has(summary.kind)) return undefined;
  const kind = summary.kind === "duration" ? "days" : summary.kind === "share" ? "share" : "number";
  return {
    as: "bars",
    across: { label: split.label, kind: "groups", names: split.groups.map(({ label }) => label) },
    up: { label: summary.label, kind },
    groups: [],
    marks: split.groups.map((group, i) => ({
      across: i,
      up: summary.at(i) as number | null,
      group: 0,
      rows: group.rows.length,
      pick: groupKey(i),
    })),
  };
}

const drawnKinds: ReadonlySet<string> = new Set(["number", "duration", "share"]);
