import type { Chart, Margins } from "./chart.ts";
import { boxes, type Layer, layered, segments, texts } from "./layers.ts";
import { percentText } from "./percent-text.ts";
import { plainText } from "./plain-text.ts";
import { textWidth, wrapText } from "./text-width.ts";
import { textSize } from "./theme.ts";

/** Why eyes failed: finished counts. */
export interface FailureCauses {
  readonly causes: readonly FailureCause[];
  /** All failures, the whole that shares are of. */
  readonly total: number;
}

export interface FailureCause {
  readonly label: string;
  readonly count: number;
  /** Fraction of all failures; null where there are none. */
  readonly share: number | null;
  /** The cause was not recorded: drawn last, as an outline. */
  readonly unknown?: boolean;
  /** What a click on the bar opens. */
  readonly pick?: string;
}

const font = { size: textSize.label };
const barHeight = 13;
const margins: Margins = { left: 0, right: 0, top: 4, bottom: 6 };

/** Causes as horizontal bars from zero, most frequent first and not recorded last, all counted. */
export function causesChart(causes: FailureCauses, { width }: { readonly width: number }): Chart {
  const ordered = inOrder(causes.causes);
  const rows = layRows(ordered, width);
  const height = rows.at(-1)?.foot ?? 0;
  return {
    kind: "causes",
    spec: layered({ width, height }, margins, layersOf(rows, height)),
    description: describe(ordered, causes.total),
    width,
    height: margins.top + height + margins.bottom,
    columns: [
      { field: "cause", label: "Cause" },
      { field: "count", label: "Eyes" },
      { field: "share", label: "Share of failures" },
    ],
    data: ordered.map(({ label, count, share }) => ({ cause: label, count, share })),
  };
}

function inOrder(causes: readonly FailureCause[]): readonly FailureCause[] {
  const rank = (cause: FailureCause): number => (cause.unknown ? 1 : 0);
  return [...causes].sort((a, b) => rank(a) - rank(b) || b.count - a.count);
}

interface LaidRow {
  readonly cause: FailureCause;
  readonly lines: readonly string[];
  readonly value: string;
  readonly textY: number;
  /** Corners of the bar. */
  readonly x: number;
  readonly x2: number;
  readonly barY: number;
  readonly foot: number;
}

/** Names left of the bars, or above them where that would take more than 45% of the width. */
function layRows(causes: readonly FailureCause[], width: number): readonly LaidRow[] {
  const names = causes.map(({ label }) => plainText(label));
  const widestName = widest(names);
  const above = widestName > width * 0.45;
  const room = above ? width : Math.ceil(widestName);
  const x = above ? 0 : room + 16;
  const scale =
    (width - x - widest(causes.map(valueText)) - 14) / Math.max(1, ...causes.map((c) => c.count));
  let y = 0;
  return causes.map((cause, i) => {
    const lines = wrapText(names[i]!, 2, { ...font, width: room });
    const barY = above ? y + lines.length * 16 + 4 : y + 6;
    const row = { cause, lines, value: valueText(cause), textY: y + (above ? 14 : 17), x, barY };
    y = barY + barHeight + (above ? 12 : 7);
    return { ...row, x2: x + cause.count * scale, foot: y };
  });
}

function layersOf(rows: readonly LaidRow[], height: number): readonly Layer[] {
  const x = rows[0]?.x ?? 0;
  return [
    bars(
      rows.filter(({ cause }) => !cause.unknown),
      ["failed"],
    ),
    bars(
      rows.filter(({ cause }) => cause.unknown),
      ["failed-outline"],
    ),
    segments(rows.length > 0 ? [{ x, y: 0, x2: x, y2: height }] : [], ["axis"]),
    texts(
      rows.flatMap(({ lines, textY }) =>
        lines.map((text, line) => ({ x: 0, y: textY + line * 16, text })),
      ),
      ["plain"],
    ),
    texts(
      rows.map(({ cause, value, x2, barY }) => ({
        x: x2 + 8,
        y: barY + 11,
        text: value,
        pick: cause.pick,
      })),
      ["plain"],
    ),
  ];
}

function bars(rows: readonly LaidRow[], style: readonly string[]): Layer {
  const drawn = rows.filter(({ cause }) => cause.count > 0);
  return boxes(
    drawn.map(({ x, x2, barY, cause }) => ({
      x,
      y: barY,
      x2,
      y2: barY + barHeight,
      pick: cause.pick,
    })),
    style,
  );
}

function valueText({ count, share }: FailureCause): string {
  return share === null ? String(count) : `${count}  (${percentText(share, 1)})`;
}

function describe(causes: readonly FailureCause[], total: number): string {
  if (total === 0) return "No failures.";
  const parts = causes.map(
    (cause) => `${plainText(cause.label)} ${valueText(cause).replace("  ", " ")}`,
  );
  return `Causes of ${total} ${total === 1 ? "failure" : "failures"}: ${parts.join("; ")}.`;
}

function widest(all: readonly string[]): number {
  return Math.max(0, ...all.map((text) => textWidth(text, font)));
}
