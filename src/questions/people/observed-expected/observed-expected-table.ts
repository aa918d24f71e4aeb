import { wilsonInterval } from "../../../statistics/wilson-interval.ts";
import type { AnswerCell, AnswerColumn, AnswerTable } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { pCell, ratioCell } from "../../answering/effect-cells.ts";
import { estimateCell, noEstimate } from "../../answering/estimate-cell.ts";
import { percent } from "../../answering/wording.ts";
import { chanceToNotice, doubling } from "../enough-line.ts";
import { withoutPerson } from "../one-person.ts";
import { type ComparisonParts, restOf } from "./observed-expected-parts.ts";
import type { PersonResult } from "./person-result.ts";

/** One row a person, in the order of codes, every count leading to its eyes. */
export function comparisonTable(parts: ComparisonParts, picks: PickBook): AnswerTable {
  const rest = restOf(parts);
  return {
    columns: columnsOf(parts),
    rows: [
      ...parts.people.map((person, position) => personRow(person, { position, parts, picks })),
      ...(rest === undefined ? [] : [restRow(rest, parts)]),
    ],
  };
}

function columnsOf({ label, people }: ComparisonParts): AnswerColumn[] {
  const method = people.find(({ ratio }) => ratio !== null)?.ratio?.method ?? "exact";
  return [
    { label, kind: "text" },
    { label: "outcome known", kind: "number" },
    { label: "failed", kind: "number" },
    { label: "failed of known (95% Wilson)", kind: "estimate" },
    { label: "with a risk", kind: "number" },
    { label: "mean expected risk", kind: "number" },
    { label: "failed of these", kind: "number" },
    { label: "expected", kind: "number" },
    { label: `observed / expected (95% ${method})`, kind: "estimate" },
    { label: "p (exact)", kind: "number" },
    { label: "adjusted rate (95%)", kind: "estimate" },
    { label: "drawn towards the mean (95% beta-binomial)", kind: "estimate" },
    { label: "in the worst quarter", kind: "number" },
    { label: "chance to notice a doubled rate", kind: "number" },
    { label: "not known", kind: "number" },
    { label: "too recent", kind: "number" },
  ];
}

function personRow(
  person: PersonResult,
  at: { readonly position: number; readonly parts: ComparisonParts; readonly picks: PickBook },
): AnswerCell[] {
  const { label, judged, failedEyes, ratio, risks, shrunken } = person;
  const { hasFailed } = judged;
  const openable = (what: string, eyes: readonly number[]): AnswerCell =>
    at.picks.cell(`p${at.position}:${what}`, `${label}, ${what}`, eyes);
  const withRisk = risks?.eyes ?? [];
  return [
    { text: label, value: label },
    openable("known", judged.known),
    openable("failed", failedEyes),
    estimateCell(person.rate, person.interval),
    openable("with a risk", withRisk),
    shareCell(person.meanRisk),
    openable("observed", withRisk.filter(hasFailed)),
    ratio === null ? noEstimate : { text: ratio.expected.toFixed(1), value: ratio.expected },
    ratioCell(ratio),
    pCell(ratio?.p ?? null),
    estimateCell(person.adjusted?.estimate ?? null, person.adjusted),
    estimateCell(shrunken?.shrunken ?? null, shrunken?.limits ?? null),
    shareCell(person.worstQuarter),
    shareCell(chanceToNotice(judged.known.length, doubling(at.parts.standard))),
    openable("not known", judged.unknown),
    openable("too recent", judged.tooRecent),
  ];
}

/** The others together: their counts alone, and no way to the eyes of any of them. */
function restRow(
  { known, failedEyes }: NonNullable<ReturnType<typeof restOf>>,
  { mine }: ComparisonParts,
): AnswerCell[] {
  const label = withoutPerson({ code: mine ?? "", eyes: [], others: [], otherPeople: 0 });
  const counts = [known.length, failedEyes.length].map((value) => ({ text: String(value), value }));
  const rate = known.length === 0 ? null : failedEyes.length / known.length;
  const interval = wilsonInterval(failedEyes.length, known.length);
  const empty = Array.from({ length: 12 }, () => noEstimate);
  return [{ text: label, value: label }, ...counts, estimateCell(rate, interval), ...empty];
}

function shareCell(share: number | null): AnswerCell {
  return share === null ? noEstimate : { text: percent(share), value: share };
}
