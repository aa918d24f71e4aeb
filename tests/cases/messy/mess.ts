import { type Random, seededRandom } from "../../../data-demo/random.ts";

/** The habits of one department and its programs. */
export interface Mess {
  readonly encoding:
    | "UTF-8"
    | "UTF-8 with mark"
    | "UTF-16LE"
    | "UTF-16BE"
    | "UTF-16LE without mark"
    | "Windows-1252"
    | "workbook"
    | "workbook since 1904";
  readonly delimiter: "," | ";" | "\t" | "|";
  readonly lineEnd: "\n" | "\r\n" | "\r" | "mixed";
  readonly namesDelimiter: boolean;
  readonly titleLines: number;
  readonly below: readonly string[];
  readonly blankLines: boolean;
  readonly headingsAgain: boolean;
  readonly trailingDelimiters: number;
  readonly padding: string;
  readonly quoteAll: boolean;
  readonly headings: "names" | "capitals" | "camelCase" | "other" | "typed wrong";
  readonly headingFault: "none" | "repeated" | "empty" | "two hundred";
  readonly order: "as they are" | "reversed" | "shuffled";
  readonly otherSpellings: boolean;
  readonly between: string;
  readonly days:
    | "iso"
    | "with a time"
    | "compact"
    | "day first"
    | "month first"
    | "dots"
    | "two digits"
    | "name of month"
    | "month in full"
    | "serial";
  readonly decimalComma: boolean;
  readonly units: boolean;
  readonly truths: readonly [yes: string, no: string];
  readonly acuity:
    | "6/x"
    | "20/x"
    | "20/x and letters"
    | "logMAR"
    | "bare logMAR"
    | "decimal"
    | "letters"
    | "bare letters"
    | "by row";
  readonly pvr: "grades" | "1991" | "1991 parted" | "1983";
  readonly missing: string;
  readonly extraColumns: "none" | "own" | "private";
  /** What is wrong with single rows; their values cannot all be known. */
  readonly damage:
    | "none"
    | "cells"
    | "value lost"
    | "value split"
    | "cut short"
    | "order of a day slipped";
}

const plain: Mess = {
  encoding: "UTF-8",
  delimiter: ",",
  lineEnd: "\n",
  namesDelimiter: false,
  titleLines: 0,
  below: [],
  blankLines: false,
  headingsAgain: false,
  trailingDelimiters: 0,
  padding: "",
  quoteAll: false,
  headings: "names",
  headingFault: "none",
  order: "as they are",
  otherSpellings: false,
  between: ";",
  days: "iso",
  decimalComma: false,
  units: false,
  truths: ["yes", "no"],
  acuity: "6/x",
  pvr: "grades",
  missing: "",
  extraColumns: "none",
  damage: "none",
};

/** Every habit there is, by itself. */
const alone: Readonly<{ [Habit in keyof Mess]: readonly Mess[Habit][] }> = {
  encoding: [
    ...(["UTF-8 with mark", "UTF-16LE", "UTF-16BE", "UTF-16LE without mark"] as const),
    ...(["Windows-1252", "workbook", "workbook since 1904"] as const),
  ],
  delimiter: [";", "\t", "|"],
  lineEnd: ["\r\n", "\r", "mixed"],
  namesDelimiter: [true],
  titleLines: [1, 3],
  below: [["Total", "40"], ["Source: the theatre log, as of today"]],
  blankLines: [true],
  headingsAgain: [true],
  trailingDelimiters: [1, 4],
  padding: [" ", "\u00a0"],
  quoteAll: [true],
  headings: ["capitals", "camelCase", "other", "typed wrong"],
  headingFault: ["repeated", "empty", "two hundred"],
  order: ["reversed", "shuffled"],
  otherSpellings: [true],
  between: [",", " / ", " + ", " and "],
  days: [
    "with a time",
    "compact",
    "day first",
    "month first",
    "dots",
    "two digits",
    "name of month",
    "month in full",
    "serial",
  ],
  decimalComma: [true],
  units: [true],
  truths: [
    ["Y", "N"],
    ["1", "0"],
    ["TRUE", "FALSE"],
  ],
  acuity: [
    ...(["20/x", "20/x and letters", "logMAR", "bare logMAR"] as const),
    ...(["decimal", "letters", "bare letters", "by row"] as const),
  ],
  pvr: ["1991", "1991 parted", "1983"],
  missing: ["n/a", "-", "NK", "not recorded", "?"],
  extraColumns: ["own", "private"],
  damage: [
    ...(["cells", "value lost", "value split", "cut short"] as const),
    "order of a day slipped",
  ],
};

export interface NamedMess {
  readonly name: string;
  readonly mess: Mess;
}

/** So many departments with several habits at once. */
const mixed = 70;

/** Departments: one with none of it, one for each habit by itself, and mixtures. */
export function messes(): readonly NamedMess[] {
  const random = seededRandom(2026);
  const single = Object.entries(alone).flatMap(([habit, ways]) =>
    (ways as readonly unknown[]).map((way) => ({
      name: `${habit} ${JSON.stringify(way)}`,
      mess: consistent({ ...plain, [habit]: way }),
    })),
  );
  const mixtures = Array.from({ length: mixed }, (_, i) => ({
    name: `mixture ${i + 1}`,
    mess: mixture(random),
  }));
  return [{ name: "nothing wrong", mess: plain }, ...single, ...mixtures];
}

/** Each habit as likely as not. */
function mixture(random: Random): Mess {
  const habits = Object.entries(alone).map(([habit, ways]) => {
    const way = random.chance(0.5) ? ways[random.whole(0, ways.length - 1)] : undefined;
    return [habit, way ?? plain[habit as keyof Mess]] as const;
  });
  return consistent(Object.fromEntries(habits) as unknown as Mess);
}

/**
 * A day can slip only where days are written with numbers for their month, and in order; no value
 * of a sheet moves to another column.
 */
function consistent(mess: Mess): Mess {
  if (mess.damage === "order of a day slipped") return { ...mess, days: "day first" };
  const isSheet = mess.encoding.startsWith("workbook");
  return isSheet && mess.damage !== "cells" ? { ...mess, damage: "none" } : mess;
}
