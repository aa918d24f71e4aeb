import type { ChartPicture } from "../files/chart-picture.ts";

/** One slide's worth to say, and nothing of where; it may become several slides. */
export interface Slide {
  /** The question that the title answers, small above it. */
  readonly asks?: string;
  readonly title: readonly TextRun[];
  /** Paragraphs. */
  readonly body?: readonly string[];
  readonly chart?: SlideChart;
  readonly table?: SlideTable;
  /** Small lines at the foot: cautions, and what was minuted. */
  readonly foot: readonly string[];
  /** For the speaker. */
  readonly notes: string;
}

export interface TextRun {
  readonly text: string;
  readonly role?: "failed" | "attached";
}

export interface SlidePicture extends ChartPicture {
  /** For programs that draw no SVG; undefined where none could be drawn. */
  readonly png: Uint8Array | undefined;
}

/** A chart that is not drawn before its room is known. */
export interface SlideChart {
  /** How large it comes out in a room, inches: laid out, and not yet drawn. */
  measure(room: Size): DrawnSize;
  draw(room: Size): Promise<SlidePicture>;
}

export interface DrawnSize extends Size {
  /** How large a pixel of the drawing comes out, inches. */
  readonly pixel: number;
}

export interface SlideTable {
  readonly columns: readonly SlideColumn[];
  readonly rows: readonly (readonly string[])[];
}

export interface SlideColumn {
  readonly label: string;
  readonly isText: boolean;
}

/** In inches. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** In inches from the top left corner of the slide. */
export interface Place extends Size {
  readonly x: number;
  readonly y: number;
}

/** A slide with the place of each thing on it: nothing overlaps, and everything fits. */
export interface PlacedSlide {
  readonly asks?: string;
  readonly title: { readonly runs: readonly TextRun[]; readonly points: number };
  readonly body?: Place & { readonly paragraphs: readonly string[] };
  readonly picture?: Place & { readonly picture: SlidePicture };
  readonly table?: Place & { readonly table: FittedTable };
  readonly foot?: Place & { readonly paragraphs: readonly string[] };
  readonly notes: string;
}

/** A table, or a part of one, that fits on a slide. */
export interface FittedTable extends SlideTable {
  readonly points: number;
  /** Of each column, inches. */
  readonly widths: readonly number[];
  /** Of the head and of each row, inches. */
  readonly heights: readonly number[];
}
