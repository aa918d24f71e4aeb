import type { ContentsLine } from "./contents.ts";
import { contents } from "./contents.ts";
import { html, type Markup } from "./markup.ts";
import type { ReportInput } from "./report-input.ts";
import { standingCaution } from "./standing-caution.ts";
import { type TitleFact, titleFacts } from "./title-facts.ts";

/** The first page: title, facts, what every report says of itself, and what it holds. */
export function titlePage(input: ReportInput, lines: readonly ContentsLine[]): Markup {
  return html`<header>
<h1>${input.title}</h1>
<dl class="facts">${titleFacts(input).map(factLine)}</dl>
<p class="standing">${standingCaution}</p>
</header>
${contents(lines)}`;
}

function factLine({ term, text, sha256 }: TitleFact): Markup {
  const digest =
    sha256 === undefined ? undefined : html` <span>SHA-256 <code>${sha256}</code></span>`;
  return html`<dt>${term}</dt><dd>${text}${digest}</dd>\n`;
}
