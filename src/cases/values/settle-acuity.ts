import { foldSpelling } from "../fold-spelling.ts";
import type { AcuityNotation } from "../matching.ts";
import type { ColumnContext, Remark } from "./column-reading.ts";

export interface AcuitySettled {
  readonly notation?: AcuityNotation;
  readonly remarks: readonly Remark[];
}

/**
 * What the bare numbers of a column of acuity are: by the notebook, by the heading, else by the
 * numbers themselves. A whole number above 3 can only be letters; below 0 only logMAR; from 2.1
 * to 3 only logMAR, since no decimal acuity is so good. 0.05 to 2 can be either, and is asked.
 */
export function settleAcuity(bare: readonly number[], context: ColumnContext): AcuitySettled {
  const told = context.settled?.acuityNotation ?? notationInHeading(context.heading);
  if (told !== undefined) return { notation: told, remarks: [] };
  const notation = notationOf(bare);
  if (notation !== undefined) return { notation, remarks: [] };
  return { remarks: bare.length === 0 ? [] : [undecided(bare.length)] };
}

function notationInHeading(heading: string): AcuityNotation | undefined {
  const folded = foldSpelling(heading);
  if (folded.includes("logmar")) return "logMAR";
  if (folded.includes("decimal")) return "decimal";
  return folded.includes("letters") || folded.includes("etdrs") ? "letters" : undefined;
}

function notationOf(bare: readonly number[]): AcuityNotation | undefined {
  const areLetters = bare.filter((number) => number > 3 && Number.isInteger(number)).length;
  if (areLetters * 2 > bare.length) return "letters";
  if (bare.some((number) => number < 0 || (number > 2 && number <= 3))) return "logMAR";
  return undefined;
}

function undecided(count: number): Remark {
  const [values, are] =
    count === 1 ? ["value is a bare number", "is"] : ["values are bare numbers", "are"];
  return {
    severity: "query",
    code: "acuity-undecided",
    message: `${count} ${values} that can be logMAR or decimal acuity, and ${are} missing until you say.`,
    expected: "logMAR, decimal or letters, said in the heading or for the column",
    remedy: "say for this column: logMAR, decimal, or letters",
  };
}
