/** Acuities before and after, paired: finished numbers, logMAR. */
export interface AcuityScatter {
  readonly groups: readonly string[];
  readonly points: readonly ScatterPoint[];
  /** Name of the table that gives low vision its number. */
  readonly table: string;
  /** The kinds of low vision that were met, at the table's number. */
  readonly lowVision: readonly { readonly label: string; readonly logMar: number }[];
  /** Whether the eyes are split into groups that differ by hue and shape. */
  readonly split: boolean;
}

export interface ScatterPoint {
  readonly before: number;
  readonly after: number;
  /** Index into `groups`. */
  readonly group: number;
  /** Eyes at this point. */
  readonly eyes: number;
  /** What a click on it opens. */
  readonly pick?: string;
}
