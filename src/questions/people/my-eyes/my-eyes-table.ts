import type { AnswerCell, AnswerColumn, AnswerTable } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { differenceCell } from "../../answering/effect-cells.ts";
import { estimateCell, noEstimate } from "../../answering/estimate-cell.ts";
import { count } from "../../answering/wording.ts";
import type { ComparedStratum, SideOfStratum } from "./compared-strata.ts";
import type { EyesToReview } from "./eyes-to-review.ts";
import type { OwnParts } from "./my-eyes-parts.ts";

/** What is known first, the rates beside the unit's, then the eyes to look at again. */
export function ownTable({ person, strata, review }: OwnParts, picks: PickBook): AnswerTable {
  const columns: AnswerColumn[] = [
    { label: "", kind: "text" },
    { label: "eyes", kind: "text" },
    { label: `${person.code}: known`, kind: "number" },
    { label: "not known", kind: "number" },
    { label: "failed", kind: "number" },
    { label: "failed of known (95% Wilson)", kind: "estimate" },
    { label: "the others: known", kind: "number" },
    { label: "failed", kind: "number" },
    { label: "failed of known (95% Wilson)", kind: "estimate" },
    { label: "difference, percentage points (95% Newcombe)", kind: "estimate" },
  ];
  return {
    columns,
    rows: [
      ...strata.map((stratum, i) =>
        stratumRow(stratum, {
          key: `s${i}`,
          isFirst: strata[i - 1]?.section !== stratum.section,
          picks,
        }),
      ),
      ...review.map((each, i) => reviewRow(each, { isFirst: i === 0, picks })),
    ],
  };
}

function stratumRow(
  { section, label, own, others, difference }: ComparedStratum,
  at: { readonly key: string; readonly isFirst: boolean; readonly picks: PickBook },
): AnswerCell[] {
  const openable = (what: string, eyes: readonly number[]): AnswerCell =>
    at.picks.cell(`${at.key}:${what}`, `${label}, ${what}`, eyes);
  return [
    { text: at.isFirst ? section : "", value: section },
    { text: label, value: label },
    openable("known", own.judged.known),
    openable("not known", own.judged.unknown),
    openable("failed", own.failedEyes),
    estimateCell(own.rate, own.interval),
    ...othersCells(others),
    differenceCell(difference),
  ];
}

/** Counts of others, with no way to their eyes. */
function othersCells(others: SideOfStratum | undefined): AnswerCell[] {
  if (others === undefined) {
    return [{ text: "kept back", value: null }, noEstimate, noEstimate];
  }
  const plain = (value: number): AnswerCell => ({ text: count(value), value });
  return [
    plain(others.judged.known.length),
    plain(others.failedEyes.length),
    estimateCell(others.rate, others.interval),
  ];
}

function reviewRow(
  { key, why, eyes }: EyesToReview,
  { isFirst, picks }: { readonly isFirst: boolean; readonly picks: PickBook },
): AnswerCell[] {
  const blank = Array.from({ length: 7 }, (): AnswerCell => ({ text: "", value: null }));
  return [
    { text: isFirst ? "to look at again" : "", value: "to look at again" },
    { text: why, value: why },
    picks.cell(`review:${key}`, why, eyes),
    ...blank,
  ];
}
