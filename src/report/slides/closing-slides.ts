import { againstMinutes, againstMinutesHeading, becauseText } from "../against-minutes.ts";
import { answerOf } from "../answered-cell.ts";
import { failureMeaning } from "../definitions-used.ts";
import { methodsUsed } from "../methods.ts";
import type { ReportedCell, ReportInput } from "../report-input.ts";
import { standingCaution } from "../standing-caution.ts";
import { whyNoAnswer } from "../why-no-answer.ts";
import type { Slide, SlideTable } from "./slide.ts";

/** How minuted figures stand, definitions, actions, methods and cells without an answer, each where there are any. */
export function closingSlides(input: ReportInput): Slide[] {
  const { definitions, actions, cells } = input;
  const unanswered = cells.flatMap(whyNot);
  return [
    ...tableSlide(againstMinutesHeading, {
      columns: textColumns(["answer", "minuted", "told then", "now", "stands", "because"]),
      rows: againstMinutes(input).map((line) => [
        line.cell.replaceAll("_", " "),
        ...[line.day, line.told, line.now, line.verdict, becauseText(line)],
      ]),
    }),
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
    ...tableSlide("Methods", {
      columns: textColumns(["method", "what it does", "source"]),
      rows: methodsUsed(cells.flatMap((cell) => answerOf(cell) ?? [])).map(
        ({ name, does, source }) => [name, does, source],
      ),
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
  if (withheld !== undefined || state.status === "current") return [];
  return [[name, whyNoAnswer(state)]];
}
