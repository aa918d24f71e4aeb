import type { AnswerCell, AnswerTable } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { differenceCell } from "../../answering/effect-cells.ts";
import { estimateCell, noEstimate } from "../../answering/estimate-cell.ts";
import { pValue } from "../../answering/wording.ts";
import { type ChangeParts, namedSides } from "./change-parts.ts";

/** A row a side, the difference beside the second. */
export function changeTable(parts: ChangeParts, picks: PickBook): AnswerTable {
  const { difference, exact } = parts.compared;
  const p = exact?.pTwoSided;
  return {
    columns: [
      { label: "operated", kind: "text" },
      { label: "outcome known", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "failed of known (95% Wilson)", kind: "estimate" },
      { label: "difference, percentage points (95% Newcombe)", kind: "estimate" },
      { label: "p (Fisher's exact)", kind: "number" },
      { label: "not known", kind: "number" },
      { label: "too recent", kind: "number" },
    ],
    rows: namedSides(parts).map(({ key, label, eyes, failed, rate, interval }): AnswerCell[] => {
      const openable = (what: string, some: readonly number[]) =>
        picks.cell(`${key}:${what}`, `${label}, ${what}`, some);
      const isAfter = key === "after";
      return [
        { text: label, value: label },
        openable("known", eyes.known),
        openable("failed", failed),
        estimateCell(rate, interval),
        isAfter ? differenceCell(difference) : { text: "reference", value: null },
        isAfter && p !== undefined
          ? { text: pValue(p).replace(/^p (= )?/, ""), value: p }
          : noEstimate,
        openable("not known", eyes.unknown),
        openable("too recent", eyes.tooRecent),
      ];
    }),
  };
}
