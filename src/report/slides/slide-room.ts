import type { Place } from "./slide.ts";

/** The sheet of a slide in inches: 16 to 9. */
export const sheet = { width: 13.333, height: 7.5, margin: 0.5 } as const;
const across = { x: sheet.margin, width: sheet.width - 2 * sheet.margin } as const;

/** Where the parts of every slide stand; what is between title and foot is the slide's own. */
export const places = {
  asks: { ...across, y: 0.22, height: 0.25 },
  title: { ...across, y: 0.47, height: 0.95 },
  number: { x: 12.35, y: 7.12, width: 0.6, height: 0.25 },
} as const satisfies Readonly<Record<string, Place>>;

const contentTop = 1.5;
const footBottom = 7.08;
const gap = 0.12;

/** In inches: at most so much of a slide for what stands at its foot. */
export const mostFoot = 1.65;

export function footPlace(height: number): Place {
  return { ...across, y: footBottom - height, height };
}

/** The room between the title and a foot of a height. */
export function contentPlace(footHeight: number): Place {
  const bottom = footBottom - (footHeight === 0 ? 0 : footHeight + gap);
  return { ...across, y: contentTop, height: bottom - contentTop };
}
