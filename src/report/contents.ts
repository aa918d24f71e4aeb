import { readRuns } from "../notebook/prose-runs.ts";
import { html, type Markup } from "./markup.ts";
import type { ReportBlock } from "./report-input.ts";

export interface ContentsLine {
  readonly anchor: string;
  readonly text: string;
}

/** The anchor of a heading, by its position among the blocks: nothing of its text becomes one. */
export function headingAnchor(position: number): string {
  return `part-${position + 1}`;
}

/** The first two levels of the notebook's headings. */
export function headingLines(blocks: readonly ReportBlock[]): ContentsLine[] {
  return blocks.flatMap((block, position) =>
    block.type === "heading" && block.level <= 2
      ? [
          {
            anchor: headingAnchor(position),
            text: readRuns(block.text)
              .map(({ text }) => text)
              .join(""),
          },
        ]
      : [],
  );
}

/** The list of what the report holds; none for a report of one part. */
export function contents(lines: readonly ContentsLine[]): Markup | undefined {
  if (lines.length < 2) return undefined;
  return html`<nav class="contents" aria-label="Contents"><h2>Contents</h2><ol>${lines.map(
    ({ anchor, text }) => html`<li><a href="#${anchor}">${text}</a></li>`,
  )}</ol></nav>`;
}
