import type { Answered, Figure } from "../questions/answer.ts";
import type { CellState } from "../recalculation/cell-state.ts";
import { html, type Markup } from "./markup.ts";

/** A cell of the sheet as it stands. */
interface NamedState {
  readonly name: string;
  readonly state: CellState;
}

/** What is to be done about a standard, so that the cycle closes. */
export interface ActionDue {
  readonly cell: string;
  /** "met", "not met", "cannot tell yet"; absent where the answer is not shown whole. */
  readonly verdict?: string;
  readonly action: string;
  readonly role: string;
  /** "2027-04-13" */
  readonly reAudit: string;
}

/** The action, the owner's role and the day of re-audit of every standard that has one of them. */
export function actionsDue(cells: readonly NamedState[]): ActionDue[] {
  return cells.flatMap(({ name, state }) => {
    if (state.status !== "current" || state.value.kind !== "thing") return [];
    if (state.value.of !== "answer") return [];
    const { question, figures } = (state.value.content as Answered).answer;
    const { action, role, re_audit: day, headline } = figures;
    if (question !== "standard" || [action, role, day].every((each) => each === null)) return [];
    const verdict = typeof headline === "string" ? { verdict: headline } : {};
    return [{ cell: name, ...verdict, action: said(action), role: said(role), reAudit: said(day) }];
  });
}

function said(figure: Figure | undefined): string {
  return typeof figure === "string" ? figure : "not said";
}

export function actionsSection(actions: readonly ActionDue[]): Markup | undefined {
  if (actions.length === 0) return undefined;
  return html`<section class="actions"><h2 id="actions">Actions</h2>
<table><thead><tr><th scope="col" class="text">standard</th><th scope="col" class="text">action</th>
<th scope="col" class="text">who sees to it</th><th scope="col" class="text">looked at again</th></tr></thead>
<tbody>${actions.map(
    ({ cell, verdict, action, role, reAudit }) =>
      html`<tr><th scope="row"><a href="#${cell}">${cell.replaceAll("_", " ")}</a>${verdict === undefined ? "" : `: ${verdict}`}</th>
<td class="text">${action}</td><td class="text">${role}</td><td class="text">${reAudit}</td></tr>\n`,
  )}</tbody></table></section>`;
}
