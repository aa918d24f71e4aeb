import type { CaseReading } from "../cases/case-reading.ts";
import { describeDictionary } from "../cases/describe-dictionary.ts";

/** A field of the dictionary that the file has, and what stands for it there. */
export interface FieldUsed {
  readonly name: string;
  /** As it stands above the column. */
  readonly heading: string;
  /** "date", "number (0 to 115 years)", "one of: right, left" … */
  readonly holds: string;
  readonly meaning: string;
  /** Values that are missing, of the rows read. */
  readonly missing: number;
}

/** The fields of the dictionary that were read from the file, in the order of the dictionary. */
export function fieldsUsed({ columns }: CaseReading): readonly FieldUsed[] {
  return describeDictionary().flatMap(({ name, holds, meaning }) => {
    const column = columns.find(({ field, by }) => field === name && by !== "dropped");
    if (column === undefined) return [];
    return [{ name, heading: column.heading, holds, meaning, missing: column.missing }];
  });
}
