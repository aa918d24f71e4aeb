/** A table of real coverage: what is drawn for a cell, and under which headings its shares stand. */
export interface CoverageTable {
  /** The name of its files, "counted-coverage". */
  readonly name: string;
  readonly settings: Readonly<Record<string, number>>;
  /** Sentences that stand over it. */
  readonly about: readonly string[];
  /** The headings of what a cell is of: "rate", "eyes". */
  readonly places: readonly string[];
  /** What each cell is of, in order. */
  readonly at: readonly Readonly<Record<string, number>>[];
  /** Headings of the shares by name. */
  readonly columns: Readonly<Record<string, string>>;
  /** The shares of one cell by name; null where none of the series had one. */
  readonly cell: (at: Readonly<Record<string, number>>) => Record<string, number | null>;
}
