import { html, nothing, type TemplateResult } from "lit";
import { send } from "../act.ts";
import type { Host } from "../host/host.ts";
import type { CasesKeeping, KeepingState } from "../keeping/cases-keeping.ts";
import "../keeping/keep-cases.ts";
import { labels } from "../labels.ts";
import type { CasesView } from "../protocol.ts";
import { ColumnAsks } from "./column-asks.ts";
import "./computed-columns.ts";
import "./correction-list.ts";
import "./file-facts.ts";
import { freeTextColumns } from "./free-text.ts";
import "./further-files.ts";
import { columnsOf } from "./grid-columns.ts";
import "./left-out-rows.ts";
import "./matched-headings.ts";
import "./patient-key.ts";

/** What the sections below the rows are about. */
export interface LeafParts {
  readonly host: Host | undefined;
  readonly keeping: CasesKeeping | undefined;
  readonly standing: KeepingState;
}

/** What was corrected and computed, the files, the codes of patients, and what is kept. */
export function aboutFiles(cases: CasesView, parts: LeafParts): TemplateResult {
  const { leaf } = cases;
  return html`${leaf === undefined ? nothing : corrections(leaf)}
    <section>
      <h2>${labels.computedTitle}</h2>
      <computed-columns .host=${parts.host} .computed=${leaf?.computed ?? []}></computed-columns>
    </section>
    <section>
      <h2>${labels.fileTitle}</h2>
      <file-facts .cases=${cases}></file-facts>
    </section>
    <section>
      <h2>${labels.leftOutRows}</h2>
      <left-out-rows .cases=${cases}></left-out-rows>
    </section>
    <section>
      <h2>${labels.filesTitle}</h2>
      <further-files .joins=${leaf?.joins ?? []}></further-files>
    </section>
    <section>
      <h2>${labels.codesTitle}</h2>
      <patient-key .host=${parts.host} .inUse=${leaf?.hasKey ?? false}></patient-key>
    </section>
    ${keeping(cases, parts)}`;
}

/** That something is asked or was guessed, over the rows that rest on it, and the way there. */
export function whatIsAsked(cases: CasesView): TemplateResult | typeof nothing {
  const asks = ColumnAsks.countOf(cases);
  const guesses = allColumns(cases).filter(({ by }) => by === "guess").length;
  if (asks === 0 && guesses === 0) return nothing;
  return html`<p class="asked">
    ${labels.askedOf(asks, guesses)}
    <button class="words" @click=${toAsked}>${labels.goToAsked}</button>
  </p>`;
}

function toAsked({ currentTarget }: Event): void {
  const leaf = (currentTarget as Element).getRootNode() as ShadowRoot;
  const heading = leaf.querySelector<HTMLElement>(".columns-side h2");
  if (heading === null) return;
  heading.tabIndex = -1;
  heading.focus();
}

function allColumns({ columns, leaf }: CasesView): CasesView["columns"] {
  return [...columns, ...(leaf?.furtherColumns ?? [])];
}

/** What only the reader can say of the columns, and what their headings stand for. */
export function aboutColumns(cases: CasesView): TemplateResult {
  return html`${
    ColumnAsks.countOf(cases) > 0
      ? html`<section>
          <h2>${labels.asksTitle}</h2>
          <column-asks .cases=${cases}></column-asks>
        </section>`
      : nothing
  }
    <section>
      <h2>${labels.columnsTitle}</h2>
      <matched-headings
        .columns=${allColumns(cases)}
        .unseen=${freeTextColumns(columnsOf(cases))}
      ></matched-headings>
    </section>`;
}

/** Before any cases are open: the passphrase is asked for where some are kept under one. */
export function withoutCases({ keeping, standing }: LeafParts): TemplateResult {
  return html`<section class="none">
    <h2>${labels.noCasesYet}</h2>
    ${
      standing === "locked"
        ? html`<keep-cases asks .keeping=${keeping} .standing=${standing}></keep-cases>`
        : nothing
    }
    <p>
      <button class="words" @click=${openInvented}>${labels.inventedInstead}</button>
    </p>
  </section>`;
}

function openInvented({ currentTarget }: Event): void {
  if (currentTarget !== null) send(currentTarget, { act: "open invented cases" });
}

function corrections(view: CasesView["leaf"]): TemplateResult {
  return html`<section aria-labelledby="corrections">
    <h2 id="corrections">${labels.correctionsTitle}</h2>
    <correction-list .view=${view}></correction-list>
  </section>`;
}

function keeping(cases: CasesView, { keeping, standing }: LeafParts): TemplateResult {
  return html`<section>
    <h2>${labels.keepingTitle}</h2>
    <keep-cases
      .keeping=${keeping}
      .standing=${standing}
      .invented=${cases.invented}
      .hasKey=${cases.leaf?.hasKey ?? false}
    ></keep-cases>
  </section>`;
}
