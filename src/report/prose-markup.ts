import { type ProseBlock, readProse } from "../notebook/prose.ts";
import { type Run, readRuns } from "../notebook/prose-runs.ts";
import { html, type Markup } from "./markup.ts";

/** The prose of a notebook as HTML; nothing written in it becomes a tag or a link. */
export function proseMarkup(text: string): Markup[] {
  return readProse(text).map(block);
}

/** A heading of the notebook, one level down: the title of the report stands above it. */
export function headingMarkup(level: number, text: string, anchor?: string): Markup {
  const content = runs(readRuns(text));
  const id = anchor === undefined ? undefined : html` id="${anchor}"`;
  return level <= 2 ? html`<h2${id}>${content}</h2>\n` : html`<h3${id}>${content}</h3>\n`;
}

function block(each: ProseBlock): Markup {
  switch (each.type) {
    case "paragraph":
      return html`<p>${runs(each.runs)}</p>\n`;
    case "heading":
      return html`<h3>${runs(each.runs)}</h3>\n`;
    case "quote":
      return html`<blockquote>${runs(each.runs)}</blockquote>\n`;
    case "list": {
      const items = each.items.map((item) => html`<li>${runs(item)}</li>`);
      return each.ordered ? html`<ol>${items}</ol>\n` : html`<ul>${items}</ul>\n`;
    }
  }
}

function runs(list: readonly Run[]): Markup[] {
  return list.map(run);
}

function run({ text, style }: Run): Markup {
  switch (style) {
    case "strong":
      return html`<strong>${text}</strong>`;
    case "emphasis":
      return html`<em>${text}</em>`;
    case "code":
      return html`<code>${text}</code>`;
    case "plain":
      return html`${text}`;
  }
}
