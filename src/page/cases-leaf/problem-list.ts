import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { formatPlace } from "../../problem/format-problem.ts";
import type { Problem } from "../../problem/problem.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";

/** Problems drawn at once; a poor file may have one a row. */
const most = 200;

/** What is wrong in the file: where, what was found, what would be right. Worst first. */
@customElement("problem-list")
export class ProblemList extends LitElement {
  static override styles = [
    base,
    css`
      .list {
        max-height: 420px;
        overflow: auto;
        border-block: 1px solid var(--hairline);
      }

      ul {
        padding: 0;
        list-style: none;
      }

      li {
        padding: 7px 0;
        border-top: 1px solid var(--row-line);
      }

      li:first-child {
        border-top: 0;
      }

      .place {
        color: var(--ink-soft);
        font-size: 13px;
      }

      .severity {
        border: 1px solid var(--edge-strong);
        border-radius: 2px;
        padding: 0 5px;
        margin-right: 6px;
        font-size: 12px;
      }

      .severity.stop {
        background: var(--ink);
        border-color: var(--ink);
        color: var(--paper);
      }
    `,
  ];

  @property({ attribute: false }) problems: readonly Problem[] = [];

  override render(): TemplateResult {
    if (this.problems.length === 0) return html`<p>${labels.noProblems}</p>`;
    const order = ["stop", "query", "note"];
    const rank = ({ severity }: Problem) => order.indexOf(severity);
    const sorted = this.problems.toSorted((one, other) => rank(one) - rank(other));
    return html`<div class="list" tabindex="0" role="region" aria-label=${labels.problemsTitle}>
        <ul>${sorted.slice(0, most).map(item)}</ul>
      </div>
      ${sorted.length > most ? html`<p>${labels.firstOf(most, sorted.length)}</p>` : nothing}`;
  }
}

function item(problem: Problem): TemplateResult {
  const details = [
    problem.found === undefined ? "" : labels.found(problem.found),
    problem.expected === undefined ? "" : labels.expected(problem.expected),
    problem.remedy === undefined ? "" : labels.remedy(problem.remedy),
  ].filter((text) => text !== "");
  return html`<li>
    <div class="place">
      <span class="severity ${problem.severity}">${labels.severity[problem.severity]}</span
      >${formatPlace(problem.place)}
    </div>
    ${problem.message} ${details.map((text) => html`<div class="place">${text}</div>`)}
  </li>`;
}
