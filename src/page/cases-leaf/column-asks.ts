import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { ColumnMatch } from "../../cases/matching.ts";
import { send } from "../act.ts";
import type { UnmetValue } from "../cases-protocol.ts";
import { countText } from "../labels/locale.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import type { CasesView } from "../protocol.ts";
import { FocusKept } from "./focus-kept.ts";
import { sectionLook } from "./section-look.ts";

const dayOrderCodes: readonly string[] = [
  "day-order-undecided",
  "day-order-mixed",
  "day-order-followed",
  "day-order-slip",
];

/** What the file does not decide: which comes first in a date, what a number of acuity is, unmet values. */
@customElement("column-asks")
export class ColumnAsks extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    sectionLook,
    css`
      li {
        padding: 6px 0;
        border-bottom: 1px solid var(--row-line);
      }

      .choices {
        display: flex;
        flex-wrap: wrap;
        gap: 6px;
        margin-top: 4px;
      }

      td select {
        width: 100%;
      }
    `,
  ];

  @property({ attribute: false }) cases!: CasesView;

  /** How many things are asked of these cases. */
  static countOf(cases: CasesView): number {
    const { unmetValues = [] } = cases.leaf ?? {};
    return unmetValues.length + asksIn(cases).length;
  }

  constructor() {
    super();
    new FocusKept(this);
  }

  override render(): TemplateResult {
    const { unmetValues = [] } = this.cases.leaf ?? {};
    const asks = asksIn(this.cases);
    return html`${asks.length > 0 ? html`<ul>${asks.map((ask) => this.#ask(ask))}</ul>` : nothing}
      ${unmetValues.length > 0 ? this.#unmet(unmetValues) : nothing}`;
  }

  #ask({ question, heading, sample, choices }: ColumnAsk): TemplateResult {
    return html`<li>
      <div role="group" aria-label=${question}>
        ${question}
        <span class="quiet">${sample.length > 0 ? labels.suchAs(sample) : nothing}</span>
        <div class="choices large-only">
          ${choices.map(
            ([label, match]) =>
              html`<button @click=${() => this.#keep({ columns: [[heading, match]] })}>
                ${label}
              </button>`,
          )}
        </div>
      </div>
    </li>`;
  }

  #unmet(values: readonly UnmetValue[]): TemplateResult {
    return html`<p class="quiet">${labels.unmetHelp}</p>
      <form @submit=${(event: SubmitEvent) => this.#say(event, values)}>
        <div class="scroll" tabindex="0" role="region" aria-label=${labels.unmetHelp}>
          <table>
            <thead>
              <tr>
                ${labels.unmetColumns.map((text) => html`<th scope="col">${text}</th>`)}
                <th scope="col" class="large-only">${labels.unmetStandsFor}</th>
              </tr>
            </thead>
            <tbody>
              ${values.map(unmetRow)}
            </tbody>
          </table>
        </div>
        <div class="foot large-only"><button class="first">${labels.keepMatch}</button></div>
      </form>`;
  }

  #say(event: SubmitEvent, unmet: readonly UnmetValue[]): void {
    event.preventDefault();
    const selects = [...(event.currentTarget as HTMLElement).querySelectorAll("select")];
    const values = selects.flatMap(({ value }, i) =>
      value === "" ? [] : [[unmet[i]!.field, unmet[i]!.written, value] as const],
    );
    if (values.length > 0) this.#keep({ values });
  }

  #keep(change: {
    readonly columns?: readonly (readonly [string, ColumnMatch])[];
    readonly values?: readonly (readonly [string, string, string])[];
  }): void {
    send(this, { act: "change", request: { ask: "match columns", change } });
  }
}

interface ColumnAsk {
  readonly question: string;
  readonly heading: string;
  readonly sample: readonly string[];
  readonly choices: readonly (readonly [label: string, match: ColumnMatch])[];
}

/** What is undecided of columns that stand for a field. */
function asksIn({ problems, columns, leaf }: CasesView): readonly ColumnAsk[] {
  const all = [...columns, ...(leaf?.furtherColumns ?? [])];
  return problems.flatMap(({ code, place }): ColumnAsk[] => {
    const column = all.find(({ field }) => field !== undefined && field === place.field);
    if (column?.field === undefined) return [];
    const { heading, field, sample } = column;
    if (dayOrderCodes.includes(code)) {
      const choices = labels.dayOrders.map((dayOrder) => [dayOrder, { field, dayOrder }] as const);
      return [{ question: labels.dayOrderAsk(heading), heading, sample, choices }];
    }
    if (code !== "acuity-undecided") return [];
    const choices = labels.acuityNotations.map(
      (acuityNotation) => [acuityNotation, { field, acuityNotation }] as const,
    );
    return [{ question: labels.acuityAsk(heading), heading, sample, choices }];
  });
}

function unmetRow({ field, written, rows, codes }: UnmetValue): TemplateResult {
  return html`<tr>
    <th scope="row">${field}</th>
    <td>“${written}”</td>
    <td>${countText(rows)}</td>
    <td class="large-only">
      <select aria-label=${labels.unmetChoice(written, field)}>
        <option value="">${labels.notSaid}</option>
        ${codes.map((code) => html`<option>${code}</option>`)}
      </select>
    </td>
  </tr>`;
}

declare global {
  interface HTMLElementTagNameMap {
    "column-asks": ColumnAsks;
  }
}
