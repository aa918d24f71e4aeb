import { layChart } from "../../charts/chart-request.ts";
import type { Answer } from "../../questions/answer.ts";
import { chartPicture, type DrawPng } from "../files/chart-picture.ts";
import type { DrawnSize, Size, SlideChart } from "./slide.ts";

/** Pixels across that a chart may be laid out for: the fewer, the larger its letters on the slide. */
const widths = [480, 540, 620, 700, 780, 860, 940] as const;
/** A pixel of a chart in inches at most: letters of 12 pixels become 15 points. */
const largestPixel = 15 / 72 / 12;

/** An answer's chart, laid out for the room there is so that its letters come out largest. */
export function slideChart(
  { name, answer }: { readonly name: string; readonly answer: Answer },
  draw: DrawPng,
): SlideChart | undefined {
  const { chart } = answer;
  if (chart === undefined) return undefined;
  const best = (room: Size) => {
    const laid = widths.map((width) => {
      const tallest = (width * room.height) / room.width;
      const { width: across, height } = layChart(chart, { width, tallest });
      const pixel = Math.min(room.width / across, room.height / height, largestPixel);
      return { width, tallest, size: { pixel, width: across * pixel, height: height * pixel } };
    });
    return laid.reduce((one, other) => (isBetter(other, one) ? other : one));
  };
  return {
    measure: (room) => best(room).size,
    draw: async (room) => {
      const { width, tallest } = best(room);
      const picture = await chartPicture(answer, { name, width, tallest });
      if (picture === undefined) throw new Error(`${name} has no chart to draw`);
      return { ...picture, png: await draw(picture.svg, 2) };
    },
  };
}

interface Laid {
  readonly size: DrawnSize;
}

/** Larger letters, or as large in a wider drawing. */
function isBetter({ size: one }: Laid, { size: other }: Laid): boolean {
  const larger = one.pixel - other.pixel;
  return larger > 1e-9 || (Math.abs(larger) <= 1e-9 && one.width > other.width);
}
