import type { PlacedSlide, Size, TextRun } from "./slide.ts";
import { linesOf, linesWithin } from "./text-fit.ts";

const sizes = [26, 24, 22, 20, 18, 16] as const;
const smallest = 16;

/** The title in the largest letters in which it fits; what fits in none is cut, ending in an ellipsis. */
export function fitTitle(runs: readonly TextRun[], room: Size): PlacedSlide["title"] {
  const points = sizes.find((size) => isWithin(runs, room, size));
  if (points !== undefined) return { runs, points };
  return { runs: cutRuns(runs, room), points: smallest };
}

/** Whether the title fits whole in letters that are large enough to be a headline. */
export function isHeadline(runs: readonly TextRun[], room: Size): boolean {
  return isWithin(runs, room, 18);
}

function isWithin(runs: readonly TextRun[], room: Size, points: number): boolean {
  return titleLines(runs, room, points).length <= linesWithin(room.height, points);
}

/** Measured as if all of it were bold. */
function titleLines(runs: readonly TextRun[], { width }: Size, points: number): readonly string[] {
  const text = runs.map((run) => run.text).join("");
  return linesOf(text, width, { points, isBold: true, isSerif: true });
}

function cutRuns(runs: readonly TextRun[], room: Size): TextRun[] {
  const lines = titleLines(runs, room, smallest).slice(0, linesWithin(room.height, smallest));
  let left = lines.join("").trimEnd().length - 1;
  const cut = runs.flatMap((run) => {
    const text = run.text.slice(0, Math.max(0, left));
    left -= text.length;
    return text === "" ? [] : [{ ...run, text }];
  });
  return [...cut, { text: "…" }];
}
