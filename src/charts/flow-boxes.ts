import type { FlowCount, FlowOutcome, FlowStage } from "./case-flow.ts";
import { plainText } from "./plain-text.ts";
import { textWidth, wrapText } from "./text-width.ts";
import { textSize } from "./theme.ts";

/** A box of a flow diagram with its texts, pixels from its top left corner. */
export interface SizedBox {
  readonly width: number;
  readonly height: number;
  readonly texts: readonly BoxText[];
  readonly pick?: string | undefined;
}

export interface BoxText {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly style: readonly string[];
  readonly pick?: string | undefined;
}

const padding = 10;
const lineHeight = 17;
const strong = { size: textSize.label, weight: 600 };

/** A stage: its count and what it counts. */
export function stageBox(stage: FlowStage, width: number): SizedBox {
  return { width, ...countLines([stage], width), pick: stage.pick };
}

/** What was left out: the total, then each reason with its count. */
export function leftOutBox(stage: FlowStage, total: number, width: number): SizedBox {
  const all = [{ label: "left out", count: total }, ...stage.leftOut];
  return { width, ...countLines(all, width) };
}

/** An outcome, its count in the colour of what it means. */
export function outcomeBox(outcome: FlowOutcome, width: number): SizedBox {
  return { width, ...countLines([outcome], width), pick: outcome.pick };
}

/** Several outcomes in one box, each count in the colour of what it means. */
export function outcomesBox(outcomes: readonly FlowOutcome[], width: number): SizedBox {
  return { width, ...countLines(outcomes, width) };
}

/** Counts in a column of their own, right aligned, the first one bold; labels beside them. */
function countLines(
  counts: readonly (FlowCount & Pick<FlowOutcome, "tone">)[],
  width: number,
): { readonly height: number; readonly texts: readonly BoxText[] } {
  const column = Math.max(...counts.map(({ count }) => textWidth(String(count), strong)));
  const labelX = padding + column + 7;
  const room = { size: textSize.label, width: width - labelX - padding };
  const result: BoxText[] = [];
  let y = padding + 10;
  for (const [i, { count, label, pick, tone = "plain" }] of counts.entries()) {
    const style = i === 0 ? [tone, "strong"] : [tone];
    const x = padding + column - textWidth(String(count), strong);
    result.push({ x, y, text: String(count), style, pick });
    for (const text of wrapText(plainText(label), 5, room)) {
      result.push({ x: labelX, y, text, style: ["plain"], pick });
      y += lineHeight;
    }
  }
  return { height: y - lineHeight + padding + 3, texts: result };
}
