/** One slide: what stands on it, and nothing of where. */
export interface Slide {
  readonly title: readonly TextRun[];
  readonly body?: readonly TextRun[];
  readonly picture?: SlidePicture;
  readonly table?: SlideTable;
  /** Small lines at the foot: cautions, and what was minuted. */
  readonly foot: readonly string[];
  /** For the speaker. */
  readonly notes: string;
}

export interface TextRun {
  readonly text: string;
  readonly role?: "failed" | "attached";
  readonly endsLine?: boolean;
}

export interface SlidePicture {
  readonly svg: string;
  /** For programs that draw no SVG; undefined where none could be drawn. */
  readonly png: Uint8Array | undefined;
  /** In pixels. */
  readonly width: number;
  readonly height: number;
  readonly description: string;
}

export interface SlideTable {
  readonly columns: readonly { readonly label: string; readonly isText: boolean }[];
  readonly rows: readonly (readonly string[])[];
}
