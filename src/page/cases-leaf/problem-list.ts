import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { groupProblems, type ProblemGroup } from "../../cases/group-problems.ts";
import type { Problem } from "../../problem/problem.ts";
import type { RowAt } from "../cases-protocol.ts";
import { labels, sentenceCase } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import { tellLeaf } from "./leaf-act.ts";

/** Groups drawn at once; a poor file may have one a row. */
const most = 150;
/** Lines of a group that lead to their rows. */
const mostLines = 12;

/** What is wrong in the file, said once, each line leading to its value. Worst first. */
@customElement("problem-list")
export class ProblemList extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      .list {
        max-height: min(52vh, 520px);
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
        overflow-wrap: anywhere;
      }

      li:first-child {
        border-top: 0;
      }

      .place {
        color: var(--ink-soft);
        font-size: 0.8125rem;
      }

      .lines {
        display: flex;
        flex-wrap: wrap;
        gap: 0 10px;
        line-height: 1.625rem;
      }

      .severity {
        border: 1px solid var(--edge-strong);
        border-radius: 2px;
        padding: 0 5px;
        margin-right: 6px;
        font-size: 0.75rem;
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
    const groups = sortedGroups(this.problems);
    return html`<div class="list" tabindex="0" role="region" aria-label=${labels.problemsList}>
        <ul>${groups.slice(0, most).map((group) => this.#group(group))}</ul>
      </div>
      ${groups.length > most ? html`<p>${labels.firstOf(most, groups.length)}</p>` : nothing}`;
  }

  #group({ problem, lines }: ProblemGroup): TemplateResult {
    const { file, field } = problem.place;
    return html`<li>
      <div class="place">
        <span class="severity ${problem.severity}">${labels.severity[problem.severity]}</span
        >${[file, field].filter((part) => part !== undefined).join(", ")}
      </div>
      ${sentenceCase(problem.message)} ${detailsOf(problem).map((text) => html`<div class="place">${text}</div>`)}
      ${
        lines.length === 0
          ? nothing
          : html`<div class="lines">
              ${lines.slice(0, mostLines).map((line) => this.#line({ line, ...(file !== undefined && { file }) }, field))}
              ${lines.length > mostLines ? html`<span>${labels.andMore(lines.length - mostLines)}</span>` : nothing}
            </div>`
      }
    </li>`;
  }

  #line(at: RowAt, field: string | undefined): TemplateResult {
    const go = () => tellLeaf(this, { does: "go to", at, ...(field !== undefined && { field }) });
    return html`<button class="opens" @click=${go}>${labels.goToLine(at.line)}</button>`;
  }
}

/** Grouped once for each list of problems: a poor file has as many as rows. */
const grouped = new WeakMap<readonly Problem[], readonly ProblemGroup[]>();

function sortedGroups(problems: readonly Problem[]): readonly ProblemGroup[] {
  const order = ["stop", "query", "note"];
  const rank = ({ problem }: ProblemGroup) => order.indexOf(problem.severity);
  const groups =
    grouped.get(problems) ??
    groupProblems(problems).toSorted((one, other) => rank(one) - rank(other));
  grouped.set(problems, groups);
  return groups;
}

function detailsOf({ found, expected, remedy }: Problem): readonly string[] {
  return [
    found === undefined ? "" : labels.found(found),
    expected === undefined ? "" : labels.expected(expected.replace(/\.$/, "")),
    remedy === undefined ? "" : labels.remedy(remedy),
  ].filter((text) => text !== "");
}

declare global {
  interface HTMLElementTagNameMap {
    "problem-list": ProblemList;
  }
}
