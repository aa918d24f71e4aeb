import { svg, type TemplateResult } from "lit";
import type { IntervalMark } from "../../questions/answer.ts";

const width = 220;
const height = 18;
const edge = 6;

/**
 * A rate with its interval as a small drawing: a square for the rate, a line for the interval, a
 * dotted line for the reference, all on the scale of the column. Its numbers stand in the
 * neighbouring columns, so that it is hidden from screen readers.
 */
export function intervalMark(mark: IntervalMark): TemplateResult {
  const at = (fraction: number) =>
    edge + (Math.min(Math.max(fraction, 0), mark.most) / (mark.most || 1)) * (width - 2 * edge);
  const middle = height / 2;
  return svg`<svg
    class="interval"
    viewBox="0 0 ${width} ${height}"
    width=${width}
    height=${height}
    aria-hidden="true"
    focusable="false"
  >
    ${mark.reference === undefined ? "" : reference(at(mark.reference))}
    <line class="reach" x1=${at(mark.lower)} x2=${at(mark.upper)} y1=${middle} y2=${middle} />
    <rect class="rate" x=${at(mark.rate) - 3.5} y=${middle - 3.5} width="7" height="7" />
  </svg>`;
}

function reference(x: number): TemplateResult {
  return svg`<line class="reference" x1=${x} x2=${x} y1="0" y2=${height} />`;
}
