import type { Answered } from "../questions/answer.ts";
import { html, type Markup } from "./markup.ts";
import { methodsUsed } from "./methods.ts";
import type { ReportInput } from "./report-input.ts";

/** The methods of this report's answers in plain words, each with its source. */
export function methodsSection({ cells }: ReportInput): Markup | undefined {
  const answers = cells.flatMap(({ state }) =>
    state.status === "current" && state.value.kind === "thing" && state.value.of === "answer"
      ? [(state.value.content as Answered).answer]
      : [],
  );
  const methods = methodsUsed(answers);
  if (methods.length === 0) return undefined;
  return html`<section class="methods"><h2 id="methods">Methods</h2><dl>${methods.map(
    ({ name, does, source }) =>
      html`<dt>${name}</dt><dd>${does} <span class="source">${source}</span></dd>\n`,
  )}</dl></section>`;
}
