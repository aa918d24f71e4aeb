/**
 * A count that a report would show: the set of rows it counts. What is shown of a rate or an
 * interval is held to the counts it could be worked back to, which are sets as well.
 */
export interface CountedSet {
  /** Unique in the report: "how_often/g0:failed". */
  readonly key: string;
  /** Rows, each by a key that is the same in all answers: of one file its line. */
  readonly rows: ReadonlySet<number>;
  /** Rates and intervals rest on it: it is kept before counts on which none does. */
  readonly isLead?: boolean;
  /** Nowhere shown, and not to be had from what is. */
  readonly isOnlyProtected?: boolean;
  /** Tables' rows and columns it stands in, whose members may add up to another count. */
  readonly families: readonly string[];
}

/** Sets of the same rows are one count, however often it is shown. */
export interface DistinctSet {
  readonly keys: readonly string[];
  readonly isLead: boolean;
  readonly families: readonly string[];
  readonly size: number;
  /** How many patients its rows belong to. */
  readonly patients: number;
  /** 1 for every atom that the set holds. */
  readonly atoms: Uint8Array;
}
