/** An interval estimate that carries its level and the name of its method. */
export interface Interval {
  readonly lower: number;
  readonly upper: number;
  /** Coverage aimed at, for example 0.95. */
  readonly level: number;
  /** The method's name in the literature, for example "Wilson". */
  readonly method: string;
}
