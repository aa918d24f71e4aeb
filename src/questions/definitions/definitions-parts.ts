import { type EyeRecord, eyeCount } from "../../outcomes/eye-record.ts";
import { outcomeAt } from "../../outcomes/outcome-at.ts";
import type { OutcomeRules } from "../../outcomes/outcome-rules.ts";
import { failureDefinitions } from "../../outcomes/outcome-rules.ts";
import type { CountedEveryWay } from "../../outcomes/ways-of-counting.ts";
import type { AnswerCell, AnswerTable, FigureRecord, PickRecord } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { estimateCell, limitsCell, noEstimate } from "../answering/estimate-cell.ts";
import type { Grouping } from "../answering/grouping.ts";
import { pickRecordAlso } from "../answering/pick-record-also.ts";
import { shareMethod } from "../answering/share-interval.ts";
import { rateFigures } from "../failure-rate/failure-rate-parts.ts";
import { headlineOf } from "../failure-rate/rate-of-group.ts";
import type { DefinitionRow, RatesEveryWay } from "./rates-every-way.ts";

/** What the sentence, the table, the chart and the figures are all made from. */
export interface DefinitionParts {
  readonly counted: CountedEveryWay;
  readonly grouping: Grouping;
  readonly rules: OutcomeRules;
  readonly rates: RatesEveryWay;
}

/** What a row leaves open, as a heading. */
export function leftOpen({ grouping }: DefinitionParts): string {
  return grouping.label === undefined
    ? "every undecided eye attached – every one failed"
    : "over every treatment of oil and of the undecided";
}

export function definitionsTable(parts: DefinitionParts, picks: PickBook): AnswerTable {
  const { grouping, rates } = parts;
  const split = grouping.label !== undefined;
  return {
    columns: [
      { label: grouping.label ?? "what counts as failure", kind: "text" },
      { label: split ? "what counts as failure" : "oil", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "failed", kind: "number" },
      { label: rateHeading(parts), kind: "estimate" },
      { label: leftOpen(parts), kind: "interval" },
      { label: "not known", kind: "number" },
    ],
    rows: rates.sections.flatMap((section, place) =>
      section.rows.map((row, position) =>
        tableRow(section.label, row, { key: rowKey(place, position), picks }),
      ),
    ),
  };
}

/** Definitions that are a state at the last visit have no time, whatever the window. */
function rateHeading({ rules: { window }, counted: { chosen } }: DefinitionParts): string {
  const all = Array.from(chosen.time, (_, eye) => eye);
  if (window === undefined) return `failed of known (95% ${shareMethod(chosen, all)})`;
  return `failed by ${window.text}, or at the last visit (95%)`;
}

export function rowKey(section: number, row: number): string {
  return `s${section}r${row}`;
}

function tableRow(
  section: string,
  row: DefinitionRow,
  { key, picks }: { readonly key: string; readonly picks: PickBook },
): AnswerCell[] {
  const { rate } = row;
  const headline = headlineOf(rate);
  const openable = (what: string, eyes: readonly number[]): AnswerCell =>
    picks.cell(`${key}:${what}`, `${section}, ${row.label}, ${what}`, eyes);
  const label = row.chosen ? `${row.label} (chosen)` : row.label;
  return [
    { text: section, value: section },
    { text: label, value: row.label },
    openable("all", [...rate.knownEyes, ...rate.unknownEyes]),
    openable("failed", rate.failedEyes),
    headline === null ? noEstimate : estimateCell(headline.estimate, headline),
    rangeCell(row),
    openable("not known", rate.unknownEyes),
  ];
}

function rangeCell({ lowest, highest }: DefinitionRow): AnswerCell {
  if (lowest === null || highest === null) return noEstimate;
  return limitsCell({ lower: lowest, upper: highest });
}

/** The numbers by name: the chosen rate, the ends, the agreement, and every way. */
export function definitionsFigures({ rates, counted, rules }: DefinitionParts): FigureRecord {
  const estimates = rates.all.flatMap(({ rate }) => headlineOf(rate)?.estimate ?? []);
  return {
    ...rateFigures(rates.chosen),
    headline: `${rates.chosen.failed} of ${eyeCount(counted.chosen)}`,
    definition: rules.failure,
    within: counted.chosen.window?.text ?? null,
    ways: rates.all.length,
    least_rate: estimates.length === 0 ? null : Math.min(...estimates),
    greatest_rate: estimates.length === 0 ? null : Math.max(...estimates),
    failed_every_way: rates.always.length,
    failed_no_way: rates.never.length,
    failed_some_ways: rates.sometimes.length,
    rates: rates.all.map(({ way, rate }) => ({ ...way, ...rateFigures(rate) })),
    sections: rates.sections.map(({ label, rows }) => ({
      section: label,
      rows: rows.map((row) => ({
        row: row.label,
        chosen: row.chosen,
        ...rateFigures(row.rate),
        least: row.lowest,
        greatest: row.highest,
      })),
    })),
  };
}

/** Each eye with the definitions under which it fails, oil and the undecided as chosen. */
export function definitionsRecord({ counted, rules }: DefinitionParts): PickRecord {
  const at = rules.window === undefined ? {} : { time: rules.window.length };
  const under: readonly (readonly [string, EyeRecord])[] = failureDefinitions.map((failure) => [
    failure,
    counted.under({ failure, oil: rules.oil, undecided: rules.undecided }),
  ]);
  return pickRecordAlso(counted.chosen, {
    headings: ["fails under"],
    texts: (eye) => {
      const failing = under.filter(([, record]) => outcomeAt(record, eye, at) === "failed");
      return [failing.map(([failure]) => failure).join(", ") || "none"];
    },
  });
}
