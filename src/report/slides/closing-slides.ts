import { formatProblem } from "../../problem/format-problem.ts";
import { failureMeaning } from "../definitions-used.ts";
import type { ReportedCell, ReportInput } from "../report-input.ts";
import { standingCaution } from "../standing-caution.ts";
import type { Slide, SlideTable } from "./slide.ts";

/** Definitions, actions and cells without an answer, each where there are any. */
export function closingSlides({ definitions, actions, cells }: ReportInput): Slide[] {
  const unanswered = cells.flatMap(whyNot);
  return [
    ...tableSlide("Definitions used", {
      columns: textColumns(["for", "failure", "silicone oil", "undecided eyes", "followed"]),
      rows: definitions.map(({ cells: names, failure, oil, undecided, followed }) => [
        names.join(", "),
        `${failure}: ${failureMeaning(failure)}`,
        ...[oil, undecided, followed],
      ]),
    }),
    ...tableSlide("Actions", {
      columns: textColumns(["standard", "action", "who sees to it", "looked at again"]),
      rows: actions.map(({ cell, verdict, action, role, reAudit }) => [
        [cell.replaceAll("_", " "), ...(verdict === undefined ? [] : [verdict])].join(": "),
        ...[action, role, reAudit],
      ]),
    }),
    ...tableSlide("Without an answer", {
      columns: textColumns(["cell", "why"]),
      rows: unanswered,
    }),
  ];
}

function textColumns(labels: readonly string[]): SlideTable["columns"] {
  return labels.map((label) => ({ label, isText: true }));
}

function tableSlide(title: string, table: SlideTable): Slide[] {
  if (table.rows.length === 0) return [];
  return [{ title: [{ text: title }], table, foot: [standingCaution], notes: title }];
}

function whyNot({ name, state, withheld }: ReportedCell): [string, string][] {
  if (withheld !== undefined) return [];
  if (state.status === "at fault") return [[name, state.problems.map(formatProblem).join("\n")]];
  return state.status === "waiting" ? [[name, `waits for ${state.waitsFor.join(", ")}`]] : [];
}
