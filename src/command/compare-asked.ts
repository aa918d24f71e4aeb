import type { CompareAsked } from "./compare-files.ts";
import { folderAndDay, paperAsked, type Values } from "./given-values.ts";
import { type PeriodAsked, periodAsked } from "./period-asked.ts";

type Refused = { readonly why: string };

/** What is to be compared: two files, or two periods of one. */
export function compareAsked(files: readonly string[], values: Values): CompareAsked | Refused {
  const of = values.period === undefined ? twoFiles(files) : twoPeriods(files, values.period);
  if ("why" in of) return of;
  if (values.period !== undefined && values.earlier !== undefined) {
    return { why: "--earlier goes with two files, --period with one; give one of the two" };
  }
  const folder = folderAndDay("compare", values);
  if ("why" in folder) return folder;
  const printed = paperAsked(values);
  if ("why" in printed) return printed;
  return {
    ...of,
    ...(values.earlier === undefined ? {} : { earlier: values.earlier }),
    ...folder,
    ...(values.sheet === undefined ? {} : { sheet: values.sheet }),
    ...printed,
    quiet: values.quiet === true,
  };
}

type Compared = Pick<CompareAsked, "notebook" | "cases" | "otherCases" | "periods">;

function twoFiles([notebook, cases, otherCases, ...rest]: readonly string[]): Compared | Refused {
  if (notebook === undefined || cases === undefined || otherCases === undefined) {
    const or = "or one file and --period FROM..TO twice";
    return { why: `compare needs a notebook and two files of cases, the earlier one first, ${or}` };
  }
  if (rest.length > 0) return { why: `compare takes three files; ${rest.join(", ")} is too many` };
  return { notebook, cases, otherCases };
}

function twoPeriods(
  [notebook, cases, ...rest]: readonly string[],
  written: readonly string[],
): Compared | Refused {
  if (notebook === undefined || cases === undefined || rest.length > 0) {
    return { why: "compare with --period needs a notebook and one file of cases" };
  }
  const [before, after, ...more] = written.map(periodAsked);
  if (before === undefined || after === undefined || more.length > 0) {
    return { why: "compare needs --period FROM..TO twice, the earlier period first" };
  }
  for (const each of [before, after]) if ("why" in each) return each;
  const periods = [before, after] as readonly [PeriodAsked, PeriodAsked];
  return { notebook, cases, otherCases: cases, periods };
}
