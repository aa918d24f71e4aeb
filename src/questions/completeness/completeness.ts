import type { CaseReading } from "../../cases/case-reading.ts";
import type { TableDrawing } from "../../charts/table-drawing.ts";
import { dayText } from "../../formula/calendar.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import { madeByOutcomes } from "../../outcomes/outcome-table.ts";
import type { AnswerCell, AnswerTable, Figure, Sentence } from "../answer.ts";
import { PickBook } from "../answering/answered-eyes.ts";
import { count, counted, listed, percent } from "../answering/wording.ts";
import { question, thingGiven, type Worked } from "../question.ts";
import { shareOf } from "../tables/cross-count.ts";
import { oneRow, tableAnswer } from "../tables/table-answer.ts";
import { type TableValue, tableGiven } from "../tables/table-value.ts";
import { type Gap, gapsByField, gapsByGroup } from "./completeness-counts.ts";
import { neededFields } from "./needed-fields.ts";
import { whatItCosts } from "./what-it-costs.ts";

/**
 * Is the record good enough? Values missing by field, by surgeon and by month of operation, of
 * those that the row ought to have. A code that says "unknown" is a value, and not missing.
 */
export const completeness = question(
  {
    name: "completeness",
    meaning: "what is missing, by field, by surgeon and by month of operation",
    asks: "Is the record good enough?",
    example: "completeness(cases)",
    parameters: [
      {
        name: "of",
        meaning: "cases, eyes, or a table made from them",
        takes: "value",
        kinds: ["cases", "eyes", "table"],
        required: true,
      },
    ],
  },
  work,
);

/** Gaps under the heading that their rows carry in the table. */
interface Section {
  readonly heading: "field" | "surgeon" | "month of operation";
  readonly gaps: readonly Gap[];
}

function work(given: GivenArguments): Worked {
  const value = tableGiven(given, "of");
  const { table } = value;
  const fields = neededFields(table, namesIn(given, value));
  const month = (held: unknown) => (typeof held === "number" ? dayText(held).slice(0, 7) : null);
  const person = (held: unknown) => (held === null ? null : String(held));
  const sections: readonly Section[] = [
    { heading: "field", gaps: gapsByField(fields) },
    {
      heading: "surgeon",
      gaps: gapsByGroup(table, fields, { column: "surgeon", shown: person }),
    },
    {
      heading: "month of operation",
      gaps: gapsByGroup(table, fields, { column: "operation_date", shown: month }),
    },
  ];
  return answer(value, sections);
}

/** The columns that the file has; of a table made from it, all. */
function namesIn(given: GivenArguments, { table }: TableValue): readonly string[] {
  const thing = thingGiven(given, "of");
  const columns = thing.of === "cases" ? (thing.content as CaseReading).columns : [];
  const matched = columns.flatMap(({ name }) => name ?? []);
  if (matched.length > 0) return matched;
  const all = table.columns.map(({ name }) => name);
  return thing.of === "eyes" ? all.filter((name) => !madeByOutcomes.has(name)) : all;
}

function answer(value: TableValue, sections: readonly Section[]): Worked {
  const picks = new PickBook();
  const [fields] = sections;
  const drawing = drawnFields(fields?.gaps ?? []);
  const people = sections.some(({ heading, gaps }) => heading === "surgeon" && gaps.length > 1);
  const codes = sections
    .filter(({ heading }) => heading === "surgeon")
    .flatMap(({ gaps }) => gaps.flatMap(({ isNamed, label }) => (isNamed ? label : [])));
  return tableAnswer(
    value,
    {
      question: "completeness",
      asks: "Is the record good enough?",
      sentence: sentenceOf(value, sections),
      brief: briefOf(sections),
      table: tableOf(sections, picks),
      ...(drawing === undefined ? {} : { chart: { draw: "table" as const, drawing } }),
      figures: figuresOf(sections),
      about: [],
      people: codes,
      compares: people ? ["surgeon"] : [],
    },
    picks,
  );
}

function totals({ gaps }: Section): { readonly needed: number; readonly missing: number } {
  return {
    needed: gaps.reduce((sum, gap) => sum + gap.needed, 0),
    missing: gaps.reduce((sum, gap) => sum + gap.missing, 0),
  };
}

function sentenceOf(value: TableValue, sections: readonly Section[]): Sentence {
  const [fields, ...others] = sections;
  if (fields === undefined || value.lines.length === 0) return ["There are no rows to look at."];
  const { needed, missing } = totals(fields);
  const of = `${counted(value.lines.length, oneRow(value))} and ${counted(fields.gaps.length, "field")}`;
  if (missing === 0) return [`Of ${of}, nothing is missing that ought to be there.`];
  const worst = fields.gaps.filter((gap) => gap.missing > 0).slice(0, 3);
  const named = worst.map(
    (gap) =>
      `${gap.label} in ${count(gap.missing)} of ${count(gap.needed)} (${percent(gap.share)})`,
  );
  const most = worst.length === 1 ? "All of them" : "Most often";
  const whole = `${count(missing)} of ${counted(needed, "value")} (${percent(shareOf(missing, needed))})`;
  return [
    `Of ${of}, ${whole} ${missing === 1 ? "is" : "are"} missing. ${most}: ${listed(named)}.`,
    ...others.flatMap(worstOf),
  ];
}

/** "1,093 of 32,609 values (3.4%) are missing; most often axial length, in 305 of 595." */
function briefOf([fields]: readonly Section[]): Sentence {
  const { needed, missing } = fields === undefined ? { needed: 0, missing: 0 } : totals(fields);
  const [worst] = fields?.gaps ?? [];
  if (missing === 0 || worst === undefined) return [];
  const whole = `${count(missing)} of ${counted(needed, "value")} (${percent(shareOf(missing, needed))})`;
  return [
    `${whole} ${missing === 1 ? "is" : "are"} missing; most often ${worst.label}, in ` +
      `${count(worst.missing)} of ${count(worst.needed)}.`,
  ];
}

/**
 * " By month of operation, most is missing for 2025-01: 12 of 100 values (12.0%)." Of surgeons the
 * range alone: a sentence names no person.
 */
function worstOf({ heading, gaps }: Section): string[] {
  const named = gaps.filter(({ isNamed }) => isNamed);
  if (heading === "surgeon") return rangeBetween(named);
  const [worst] = [...named].sort((one, other) => (other.share ?? -1) - (one.share ?? -1));
  if (named.length < 2 || worst === undefined || worst.missing === 0) return [];
  const share = `${count(worst.missing)} of ${counted(worst.needed, "value")} (${percent(worst.share)})`;
  return [` By ${heading}, most is missing for ${worst.label}: ${share}.`];
}

function rangeBetween(people: readonly Gap[]): string[] {
  const shares = people.flatMap(({ share }) => share ?? []);
  const most = Math.max(...shares);
  if (shares.length < 2 || most === 0) return [];
  return [
    ` Between surgeons the share missing runs from ${percent(Math.min(...shares))} to ${percent(most)}.`,
  ];
}

function tableOf(sections: readonly Section[], picks: PickBook): AnswerTable {
  return {
    columns: [
      { label: "by", kind: "text" },
      { label: "", kind: "text" },
      { label: "values needed", kind: "number" },
      { label: "missing", kind: "number" },
      { label: "share missing", kind: "number" },
      { label: "where it is missing", kind: "text" },
    ],
    rows: sections.flatMap((section) => [
      ...section.gaps.flatMap((gap, i) =>
        isFolded(section, gap) ? [] : [gapRow(section, { gap, i, picks })],
      ),
      ...foldedRow(section),
    ]),
  };
}

/** Fields of which nothing is missing, where there are several, share one line. */
function isFolded({ heading, gaps }: Section, gap: Gap): boolean {
  return (
    heading === "field" &&
    gap.missing === 0 &&
    gaps.filter(({ missing }) => missing === 0).length > 1
  );
}

function foldedRow(section: Section): AnswerCell[][] {
  const folded = section.gaps.filter((gap) => isFolded(section, gap));
  if (folded.length === 0) return [];
  const needed = folded.reduce((sum, gap) => sum + gap.needed, 0);
  const names = `nothing missing: ${listed(folded.map(({ label }) => label))}`;
  return [
    [
      { text: section.heading, value: section.heading },
      { text: names, value: names },
      { text: count(needed), value: needed },
      { text: count(0), value: 0 },
      { text: percent(shareOf(0, needed)), value: shareOf(0, needed) },
      { text: "", value: null },
    ],
  ];
}

function gapRow(
  { heading }: Section,
  { gap, i, picks }: { readonly gap: Gap; readonly i: number; readonly picks: PickBook },
): AnswerCell[] {
  const pick = picks.add(gapKey(heading, i), `${gap.label}, missing`, gap.rows);
  const cost = heading === "field" && gap.missing > 0 ? whatItCosts(gap.field ?? "") : "";
  return [
    { text: heading, value: heading },
    { text: gap.label, value: gap.label },
    { text: count(gap.needed), value: gap.needed },
    {
      text: count(gap.missing),
      value: gap.missing,
      ...(pick === undefined ? {} : { pick }),
    },
    { text: percent(gap.share), value: gap.share },
    { text: cost, value: cost === "" ? null : cost },
  ];
}

function gapKey(heading: Section["heading"], position: number): string {
  return `${heading.slice(0, 1)}${position}`;
}

const mostBars = 20;

/** The fields with anything missing, most first; the marks lead where the table does. */
function drawnFields(gaps: readonly Gap[]): TableDrawing | undefined {
  const drawn = gaps.filter((gap) => gap.missing > 0).slice(0, mostBars);
  if (drawn.length === 0) return undefined;
  return {
    as: "bars",
    across: { label: "field", kind: "groups", names: drawn.map(({ label }) => label) },
    up: { label: "share missing", kind: "share" },
    groups: [],
    marks: drawn.map((gap, i) => ({
      across: i,
      up: gap.share,
      group: 0,
      rows: gap.missing,
      pick: gapKey("field", i),
    })),
  };
}

function figuresOf(sections: readonly Section[]): Readonly<Record<string, Figure>> {
  const [fields, surgeons, months] = sections.map(({ gaps }) =>
    gaps.map(({ label, needed, missing, share }) => ({ label, needed, missing, share })),
  );
  const { needed, missing } =
    sections[0] === undefined ? { needed: 0, missing: 0 } : totals(sections[0]);
  return {
    field_count: fields?.length ?? 0,
    values: needed,
    missing,
    share: shareOf(missing, needed),
    headline: `${count(missing)} of ${count(needed)}`,
    fields: fields ?? [],
    surgeons: surgeons ?? [],
    months: months ?? [],
  };
}
