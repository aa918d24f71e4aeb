/**
 * A setting of the sheet: a cell whose working is a choice, a number, a range of dates or a
 * yes/no that the reader changes by hand. Settings are written with literals only, so that what
 * can be chosen is known from the working alone.
 */
export type Setting =
  | {
      readonly type: "choice";
      /** As they read on the sheet: "redetachment", "12 months". */
      readonly options: readonly string[];
      readonly now: number;
    }
  | {
      readonly type: "number";
      readonly least: number;
      readonly most: number;
      readonly step: number;
      readonly now: number;
      readonly unit?: string;
    }
  | { readonly type: "yes or no"; readonly now: boolean }
  | { readonly type: "dates"; readonly from: number; readonly to: number };
