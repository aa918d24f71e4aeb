/**
 * A chart as plain data: a vega-lite specification of finished numbers, its text alternative and
 * its rows. It holds no colours; a theme is chosen when it is drawn.
 *
 * Field names are ours throughout. Text from a file or notebook stands only as a value in rows.
 */
export interface Chart {
  /** Which chart it is: "attachment-curve", "interval", "causes", "flow". */
  readonly kind: string;
  /** A vega-lite top-level specification, JSON-serialisable. */
  readonly spec: object;
  /** Text alternative, made from the same numbers. */
  readonly description: string;
  /** Pixels, margins included. */
  readonly width: number;
  readonly height: number;
  /** The numbers drawn, unrounded, to be copied as a table. */
  readonly columns: readonly ChartColumn[];
  readonly data: readonly ChartRow[];
}

export interface ChartColumn {
  /** The key in each row. */
  readonly field: string;
  /** Its heading for readers. */
  readonly label: string;
}

export type ChartRow = Readonly<Record<string, string | number | null>>;

/** Space around the plot, pixels. */
export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}
