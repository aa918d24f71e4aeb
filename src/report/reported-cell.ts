import { formatDay } from "../cases/calendar-day.ts";
import type { Value } from "../formula/value.ts";
import { durationText } from "../questions/answering/time-words.ts";
import { plainNumber } from "../questions/answering/wording.ts";
import { answerOf } from "./answered-cell.ts";
import { finding, withheld } from "./finding.ts";
import { html, type Markup } from "./markup.ts";
import { minutes } from "./minutes.ts";
import type { ReportedCell } from "./report-input.ts";
import { whyNoAnswer } from "./why-no-answer.ts";

/** A cell in its place in the report: an answer, a value in one line, or why there is neither. */
export async function reportedCell(cell: ReportedCell): Promise<Markup | undefined> {
  const { name, state } = cell;
  const answer = answerOf(cell);
  if (answer !== undefined) return finding(cell, answer);
  if (cell.withheld !== undefined) {
    return html`<section class="finding" id="${name}"><p class="asks"><span class="name">${name}</span></p>
${withheld(cell.withheld)}</section>
`;
  }
  if (state.status === "current") return plainCell(cell);
  return html`<section class="fault" id="${name}"><p><strong>${name}</strong> has no answer:</p>
<pre>${whyNoAnswer(state)}</pre></section>
`;
}

/** A setting or a plain value in one line, with what was minuted of it; nothing for other things. */
function plainCell({ name, state, setting, minuted }: ReportedCell): Markup | undefined {
  if (state.status !== "current") return undefined;
  const worth = setting ?? plainText(state.value);
  if (worth === undefined) return undefined;
  return html`<p class="worth"><span class="name">${name.replaceAll("_", " ")}</span> ${worth}</p>
${minutes(minuted)}`;
}

function plainText(value: Value): string | undefined {
  switch (value.kind) {
    case "number":
      return plainNumber(value.number);
    case "text":
      return value.text;
    case "truth":
      return value.truth ? "yes" : "no";
    case "day":
      return formatDay(value.day);
    case "duration":
      return durationText(value);
    default:
      return undefined;
  }
}
