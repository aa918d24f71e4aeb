import type { ColumnKind } from "./table.ts";

/** What a column holds and how its values are read: a field of the dictionary or a column of one's own. */
export interface ColumnSpec {
  /** As a working writes it. */
  readonly name: string;
  /** As a person reads it. */
  readonly label: string;
  readonly kind: ColumnKind;
  readonly unit?: string;
  /** Numbers outside are queries. Both ends belong to it. */
  readonly range?: Range;
  /** Only whole numbers make sense: counts. */
  readonly whole?: true;
  /** For codes, in the order they should stand in. Absent: whatever the column holds. */
  readonly codes?: readonly Code[];
}

/** One field of the dictionary: everything that reading, checking and describing it need. */
export interface Field extends ColumnSpec {
  readonly group: FieldGroup;
  /** One line. */
  readonly meaning: string;
  /** Other spellings of its heading, compared by `foldSpelling`. */
  readonly headings: readonly string[];
  /** Made on reading this other field; never matched to a heading. */
  readonly madeFrom?: string;
}

export interface Code {
  readonly code: string;
  /** Other ways of writing it, compared by `foldSpelling`. */
  readonly spellings: readonly string[];
}

export interface Range {
  readonly least: number;
  /** Infinity where open. */
  readonly most: number;
}

export type FieldGroup =
  | "who and when"
  | "the eye before surgery"
  | "the operation"
  | "the outcome";

/** Codes from lines of `code: spelling; spelling`, in the order given. */
export function codeList(lines: Readonly<Record<string, string>>): readonly Code[] {
  return Object.entries(lines).map(([code, spellings]) => ({
    code,
    spellings: spellings.split("; ").filter((spelling) => spelling !== ""),
  }));
}

/** Fields of one group; the parts of each in the order of reading. */
export function fieldsOf(group: FieldGroup, fields: readonly Omit<Field, "group">[]): Field[] {
  return fields.map((field) => ({ ...field, group }));
}

/** Yes/no fields from lines of `name: "meaning | heading; heading"`. */
export function truthFields(lines: Readonly<Record<string, string>>): Omit<Field, "group">[] {
  return Object.entries(lines).map(([name, line]) => {
    const [meaning = "", headings = ""] = line.split(" | ");
    const label = name.replaceAll("_", " ");
    return { name, label, kind: "truth" as const, meaning, headings: headings.split("; ") };
  });
}
