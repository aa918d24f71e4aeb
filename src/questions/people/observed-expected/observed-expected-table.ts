import { wilsonInterval } from "../../../statistics/wilson-interval.ts";
import type { AnswerCell, AnswerColumn, AnswerTable } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { pCell, ratioCell } from "../../answering/effect-cells.ts";
import { estimateCell, noEstimate } from "../../answering/estimate-cell.ts";
import { count, percent } from "../../answering/wording.ts";
import { chanceToNotice, doubling } from "../enough-line.ts";
import { type ComparisonParts, restOf } from "./observed-expected-parts.ts";
import type { PersonResult } from "./person-result.ts";

/** One row a person, in the order of codes, every count leading to its eyes. */
export function comparisonTable(parts: ComparisonParts, picks: PickBook): AnswerTable {
  const shown = columnsOf(parts, picks).filter(({ isShown }) => isShown !== false);
  const rest = restOf(parts);
  if (!parts.areNamesHidden) addObserved(parts, picks);
  return {
    columns: shown.map(({ label, kind }) => ({ label, kind })),
    rows: [
      ...parts.people.map((person, position) => shown.map(({ cell }) => cell(person, position))),
      ...(rest === undefined ? [] : [shown.map(({ of }) => of?.(rest) ?? noEstimate)]),
    ],
  };
}

/** What the drawn ratios open. */
function addObserved({ people }: ComparisonParts, picks: PickBook): void {
  people.forEach(({ label, risks, judged }, position) => {
    const failed = (risks?.eyes ?? []).filter(judged.hasFailed);
    picks.add(`p${position}:observed`, `${label}, failed of those with a risk`, failed);
  });
}

/** A column: what stands in it for a person, and where it has something, for the others together. */
interface ComparisonColumn extends AnswerColumn {
  readonly cell: (person: PersonResult, position: number) => AnswerCell;
  /** Of the others, counts alone and no way to the eyes of any of them. */
  readonly of?: (rest: Rest) => AnswerCell;
  /** Not shown where it would say nothing in any row. */
  readonly isShown?: boolean;
}

type Rest = NonNullable<ReturnType<typeof restOf>>;

function columnsOf(parts: ComparisonParts, picks: PickBook): ComparisonColumn[] {
  const counts = parts.areNamesHidden ? shut : opening(picks);
  return [
    ...countColumns(parts, counts),
    ...expectedColumns(parts, counts),
    ...ratioColumns(parts),
    ...shrunkenColumns(parts),
    ...openColumns(parts, counts),
  ];
}

function countColumns({ label, mine }: ComparisonParts, counts: CountCells): ComparisonColumn[] {
  return [
    {
      label,
      kind: "text",
      cell: (person) => textCell(person.label),
      of: () => textCell(`the unit without ${mine}`),
    },
    {
      label: "outcome known",
      kind: "number",
      cell: counts("known", ({ judged }) => judged.known),
      of: ({ known }) => countCell(known.length),
    },
    {
      label: "failed",
      kind: "number",
      cell: counts("failed", ({ failedEyes }) => failedEyes),
      of: ({ failedEyes }) => countCell(failedEyes.length),
    },
    {
      label: "failed of known (95% Wilson)",
      kind: "estimate",
      cell: ({ rate, interval }) => estimateCell(rate, interval),
      of: ({ known, failedEyes }) =>
        estimateCell(
          known.length === 0 ? null : failedEyes.length / known.length,
          wilsonInterval(failedEyes.length, known.length),
        ),
    },
  ];
}

function expectedColumns(parts: ComparisonParts, counts: CountCells): ComparisonColumn[] {
  const { people } = parts;
  const isPart = people.some(({ risks, judged }) => risks?.eyes.length !== judged.known.length);
  const withRisk = ({ risks }: PersonResult) => risks?.eyes ?? [];
  const failed = (person: PersonResult) => withRisk(person).filter(person.judged.hasFailed);
  return [
    {
      label: "with a risk",
      kind: "number",
      cell: counts("with a risk", withRisk),
      isShown: isPart,
    },
    {
      label: "failed of these",
      kind: "number",
      cell: counts("observed", failed),
      isShown: isPart,
    },
    { label: "mean expected risk", kind: "number", cell: ({ meanRisk }) => shareCell(meanRisk) },
    {
      label: "expected",
      kind: "number",
      cell: ({ ratio }) =>
        ratio === null ? noEstimate : { text: ratio.expected.toFixed(1), value: ratio.expected },
    },
  ];
}

function ratioColumns({ people }: ComparisonParts): ComparisonColumn[] {
  const method = people.find(({ ratio }) => ratio !== null)?.ratio?.method ?? "exact";
  return [
    {
      label: `observed / expected (95% ${method})`,
      kind: "estimate",
      cell: ({ ratio }) => ratioCell(ratio),
    },
    { label: "p (exact)", kind: "number", cell: ({ ratio }) => pCell(ratio?.p ?? null) },
    {
      label: "adjusted rate (95%)",
      kind: "estimate",
      cell: ({ adjusted }) => estimateCell(adjusted?.estimate ?? null, adjusted),
    },
  ];
}

function shrunkenColumns({ people, standard }: ComparisonParts): ComparisonColumn[] {
  return [
    {
      label: "drawn towards the mean (95% beta-binomial)",
      kind: "estimate",
      cell: ({ shrunken }) => estimateCell(shrunken?.shrunken ?? null, shrunken?.limits ?? null),
      isShown: people.some(({ shrunken }) => shrunken !== null),
    },
    {
      label: "in the worst quarter",
      kind: "number",
      cell: ({ worstQuarter }) => shareCell(worstQuarter),
      isShown: people.some(({ worstQuarter }) => worstQuarter !== null),
    },
    {
      label: "chance to notice a doubled rate",
      kind: "number",
      cell: ({ judged }) => shareCell(chanceToNotice(judged.known.length, doubling(standard))),
    },
  ];
}

function openColumns({ people }: ComparisonParts, counts: CountCells): ComparisonColumn[] {
  return [
    {
      label: "not known",
      kind: "number",
      cell: counts("not known", ({ judged }) => judged.unknown),
      of: ({ unknown }) => countCell(unknown.length),
    },
    {
      label: "too recent",
      kind: "number",
      cell: counts("too recent", ({ judged }) => judged.tooRecent),
      of: ({ tooRecent }) => countCell(tooRecent.length),
      isShown: people.some(({ judged }) => judged.tooRecent.length > 0),
    },
  ];
}

type CountCells = (
  what: string,
  eyesOf: (person: PersonResult) => readonly number[],
) => ComparisonColumn["cell"];

/** Cells with counts that lead to their eyes. */
function opening(picks: PickBook): CountCells {
  return (what, eyesOf) => (person, position) =>
    picks.cell(`p${position}:${what}`, `${person.label}, ${what}`, eyesOf(person));
}

/** Cells with counts alone. */
const shut: CountCells = (_, eyesOf) => (person) => countCell(eyesOf(person).length);

function textCell(text: string): AnswerCell {
  return { text, value: text };
}

function countCell(value: number): AnswerCell {
  return { text: count(value), value };
}

function shareCell(share: number | null): AnswerCell {
  return share === null ? noEstimate : { text: percent(share), value: share };
}
