import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { type ProseBlock as Block, readProse } from "../../notebook/prose.ts";
import { type Run, readRuns } from "../../notebook/prose-runs.ts";
import { base } from "../look/base.ts";

/** A heading or some prose of the notebook, between the rows of the sheet. */
@customElement("prose-block")
export class ProseBlock extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        padding-block: 14px 8px;
        max-width: 76ch;
        font: 400 var(--prose-size, 1rem) / 1.5 var(--serif);
      }

      :host([heading]) {
        padding-block: 26px 2px;
      }

      h2 {
        font: 600 1.3125rem / 1.25 var(--serif);
      }

      h3 {
        font: 600 1.0625rem / 1.3 var(--serif);
      }

      p + p,
      p + ul,
      p + ol,
      ul + p,
      ol + p {
        margin-top: 8px;
      }

      ul,
      ol {
        padding-left: 1.4em;
      }

      blockquote {
        margin: 0;
        padding-left: 14px;
        border-left: 2px solid var(--edge);
      }

      code {
        font: 0.85em var(--fixed);
      }

      @media print {
        :host([heading]) {
          break-after: avoid;
        }
      }
    `,
  ];

  @property() text = "";
  /** Level of the heading; 0 for prose. */
  @property({ type: Number }) level = 0;

  protected override willUpdate(): void {
    this.toggleAttribute("heading", this.level > 0);
  }

  override render(): TemplateResult {
    if (this.level > 0) return heading(this.level, readRuns(this.text));
    return html`${readProse(this.text).map(block)}`;
  }
}

function block(of: Block): TemplateResult {
  if (of.type === "heading") return heading(of.level, of.runs);
  if (of.type === "quote") return html`<blockquote>${of.runs.map(run)}</blockquote>`;
  if (of.type === "paragraph") return html`<p>${of.runs.map(run)}</p>`;
  const items = of.items.map((item) => html`<li>${item.map(run)}</li>`);
  return of.ordered ? html`<ol>${items}</ol>` : html`<ul>${items}</ul>`;
}

/** The book's title is the page's first heading, so that those of the notebook start below it. */
function heading(level: number, runs: readonly Run[]): TemplateResult {
  return level <= 2 ? html`<h2>${runs.map(run)}</h2>` : html`<h3>${runs.map(run)}</h3>`;
}

function run(of: Run): TemplateResult {
  if (of.style === "strong") return html`<strong>${of.text}</strong>`;
  if (of.style === "emphasis") return html`<em>${of.text}</em>`;
  return of.style === "code" ? html`<code>${of.text}</code>` : html`${of.text}`;
}

declare global {
  interface HTMLElementTagNameMap {
    "prose-block": ProseBlock;
  }
}
