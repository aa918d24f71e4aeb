import { nearestName } from "../problem/nearest-name.ts";
import type { Problem } from "../problem/problem.ts";
import type { MatchedColumn } from "./case-reading.ts";
import { dictionary, fieldNamed } from "./dictionary.ts";
import type { ColumnSpec, Field } from "./field.ts";
import { fitShare } from "./fit-share.ts";
import { foldSpelling } from "./fold-spelling.ts";
import { fieldByName, fieldByNearness, fieldBySpelling, isBareId } from "./heading-spelling.ts";
import type { ColumnMatch, Matching } from "./matching.ts";
import { areOnlyYesAndNo, ownColumnKind, ownColumnName, ownColumnSpec } from "./own-column.ts";
import { privateByHeading } from "./privacy/private-heading.ts";
import type { PrivateKind } from "./privacy/private-kind.ts";
import type { RawTable } from "./raw-table.ts";
import type { Settled } from "./values/column-reading.ts";
import type { WrittenColumn } from "./written-column.ts";

/** What each column of the file is to be read as. */
export interface ColumnPlan {
  readonly position: number;
  readonly by: MatchedColumn["by"];
  /** Absent where the column is dropped. */
  readonly spec?: ColumnSpec;
  readonly isField: boolean;
  /** What the heading says the column tells of a person. */
  readonly isPrivate?: PrivateKind;
  /** The notebook says not to read it. */
  readonly isLeft?: true;
  readonly settled?: Settled;
}

export interface MatchedHeadings {
  readonly plans: readonly ColumnPlan[];
  readonly problems: readonly Problem[];
}

/**
 * Matches headings to fields: by the notebook, by exact name, by a known spelling, by nearness
 * where the values beneath fit; else the column stays as one of the department's own. The surer
 * way comes first, and a field is matched once.
 */
export function matchColumns(
  table: RawTable,
  delimiter: string,
  matching: Matching | undefined,
): MatchedHeadings {
  const matcher = new HeadingMatcher(table, delimiter, matching);
  matcher.takeNotebook();
  matcher.takePrivate();
  matcher.takeFields("name", fieldByName);
  matcher.takeFields("spelling", fieldBySpelling);
  matcher.takeBareIds();
  matcher.takeFields("guess", fieldByNearness);
  matcher.takeOwn();
  return { plans: matcher.plansInOrder(), problems: matcher.problems };
}

/** A guess needs nearly all values beneath it to fit. */
const fitOfGuess = 0.8;

class HeadingMatcher {
  readonly problems: Problem[] = [];
  readonly #plans = new Map<number, ColumnPlan>();
  readonly #claimed = new Map<string, string>();
  /** Headings of a field that another heading has: each is asked about once. */
  readonly #asked = new Set<string>();
  readonly #ownNames = new Set<string>();
  readonly #table: RawTable;
  readonly #delimiter: string;
  readonly #matching: Matching | undefined;

  constructor(table: RawTable, delimiter: string, matching: Matching | undefined) {
    this.#table = table;
    this.#delimiter = delimiter;
    this.#matching = matching;
  }

  plansInOrder(): ColumnPlan[] {
    return this.#table.headings.map((_, position) => this.#plans.get(position)!);
  }

  takeNotebook(): void {
    if (this.#matching === undefined) return;
    const { columns } = this.#matching;
    const folded = new Map([...columns].map(([heading, match]) => [foldSpelling(heading), match]));
    for (const [position, heading] of this.#open()) {
      const match = columns.get(heading) ?? folded.get(foldSpelling(heading));
      if (match !== undefined) this.#takeMatch(position, heading, match);
    }
  }

  #takeMatch(position: number, heading: string, match: ColumnMatch): void {
    const isPrivate = this.#privateUnder(position, heading);
    const dropped = { position, by: "dropped" as const, isField: false };
    if ("leave" in match) {
      this.#plans.set(position, { ...dropped, isLeft: true, ...(isPrivate && { isPrivate }) });
    } else if (isPrivate !== undefined && !isCoded(match, isPrivate)) {
      this.#plans.set(position, { ...dropped, isPrivate });
    } else if ("field" in match) {
      this.#takeMatchedField(position, heading, match);
    } else {
      const name = ownColumnName(match.name, this.#ownNames);
      if (name !== match.name) this.problems.push(nameTaken(heading, match.name, name));
      const { kind, unit } = match;
      this.#own(position, { name, label: heading, kind, ...(unit && { unit }) }, "notebook");
    }
  }

  #takeMatchedField(
    position: number,
    heading: string,
    match: Extract<ColumnMatch, { field: string }>,
  ): void {
    const field = fieldNamed(match.field);
    if (field === undefined || field.madeFrom !== undefined) {
      this.problems.push(noSuchField(heading, match.field));
    } else if (this.#claim(field, heading)) {
      const { field: _, ...settled } = match;
      this.#plans.set(position, { position, by: "notebook", spec: field, isField: true, settled });
    }
  }

  takePrivate(): void {
    for (const [position, heading] of this.#open()) {
      const isPrivate = this.#privateUnder(position, heading);
      if (isPrivate === undefined) continue;
      this.#plans.set(position, { position, by: "dropped", isField: false, isPrivate });
    }
  }

  /** What a heading tells of a person; nothing, where only yes and no stand beneath it. */
  #privateUnder(position: number, heading: string): PrivateKind | undefined {
    const isPrivate = privateByHeading(heading);
    return isPrivate !== undefined && areOnlyYesAndNo(this.#written(position))
      ? undefined
      : isPrivate;
  }

  takeFields(
    by: "name" | "spelling" | "guess",
    find: (heading: string) => Field | undefined,
  ): void {
    for (const [position, heading] of this.#open()) {
      const field = find(heading.replace(/ \(\d+\)$/, ""));
      if (field === undefined) continue;
      if (by === "guess" && this.#claimed.has(field.name)) continue;
      const share = by === "name" ? 1 : fitShare(this.#written(position), field, heading);
      if (by === "guess" && share < fitOfGuess) continue;
      if (share === 0) {
        this.problems.push(valuesDiffer(heading, field));
      } else if (this.#claim(field, heading)) {
        this.#plans.set(position, { position, by, spec: field, isField: true });
        if (by === "guess") this.problems.push(guessed(heading, field));
      }
    }
  }

  /** "id" is the patient where a value comes twice, else the case. */
  takeBareIds(): void {
    for (const [position, heading] of this.#open()) {
      if (!isBareId(heading)) continue;
      const { different, length } = this.#written(position);
      const empty = this.#written(position).count((value) => value === "");
      const name = different.length - (empty > 0 ? 1 : 0) < length - empty ? "patient" : "case";
      if (this.#claimed.has(name)) continue;
      const field = fieldNamed(name)!;
      this.#claim(field, heading);
      this.#plans.set(position, { position, by: "guess", spec: field, isField: true });
      this.problems.push(guessed(heading, field));
    }
  }

  takeOwn(): void {
    for (const [position, heading] of this.#open()) {
      const kind = ownColumnKind(this.#inSoundRows(position), this.#delimiter);
      this.#own(position, ownColumnSpec(heading, kind, this.#ownNames), "unmatched");
    }
  }

  #own(position: number, spec: ColumnSpec, by: "notebook" | "unmatched"): void {
    this.#ownNames.add(spec.name);
    this.#plans.set(position, { position, by, spec, isField: false });
  }

  /** Columns that nothing has taken yet. */
  #open(): [number, string][] {
    return [...this.#table.headings.entries()].filter(([position]) => !this.#plans.has(position));
  }

  #written(position: number): WrittenColumn {
    return this.#table.columns[position]!;
  }

  /** What stands there in rows of the usual length: in others it may have moved from elsewhere. */
  #inSoundRows(position: number): WrittenColumn {
    const { lines, ragged } = this.#table;
    const written = this.#written(position);
    if (ragged.size === 0) return written;
    const sound = written.rows([...lines.keys()].filter((row) => !ragged.has(lines[row]!)));
    return sound.different.some((value) => value !== "") ? sound : written;
  }

  #claim(field: Field, heading: string): boolean {
    const first = this.#claimed.get(field.name);
    if (first === undefined) this.#claimed.set(field.name, heading);
    else if (!this.#asked.has(heading)) this.problems.push(fieldTwice(heading, first, field));
    if (first !== undefined) this.#asked.add(heading);
    return first === undefined;
  }
}

/** Matched to a field in which codes stand for people: of a name, also that of the surgeon. */
function isCoded(match: ColumnMatch, isPrivate: PrivateKind): boolean {
  if (!("field" in match)) return false;
  const isOfStaff = match.field === "surgeon" || match.field === "supervisor";
  return match.field === "patient" || (isPrivate === "name" && isOfStaff);
}

function query(heading: string, rest: Omit<Problem, "severity" | "place">): Problem {
  return { severity: "query", place: { field: heading }, ...rest };
}

function fieldTwice(heading: string, first: string, field: Field): Problem {
  return query(heading, {
    code: "field-twice",
    message: `this column and "${first}" both stand for ${field.name}; this one is kept as a column of its own.`,
    expected: `one column for ${field.name}`,
    remedy: "say which of them is to be read",
  });
}

function guessed(heading: string, field: Field): Problem {
  return query(heading, {
    code: "heading-guessed",
    message: `this column was taken for ${field.name}.`,
    found: heading,
    expected: field.name,
    remedy: "confirm it, or say what the column is",
  });
}

function valuesDiffer(heading: string, field: Field): Problem {
  return query(heading, {
    code: "values-do-not-fit-heading",
    message: `this heading is known for ${field.name}, but no value beneath it can be one; it is kept as a column of its own.`,
    expected: field.codes?.map(({ code }) => code).join(", ") ?? field.meaning,
    remedy: "say what the column is",
  });
}

function nameTaken(heading: string, asked: string, given: string): Problem {
  return query(heading, {
    code: "column-name-taken",
    message: `the notebook calls this column "${asked}", which is taken or no name; it is called ${given}.`,
    found: asked,
    expected: "lower case letters, digits and underscores, and no field of the dictionary",
    remedy: "choose another name for it",
  });
}

function noSuchField(heading: string, asked: string): Problem {
  const near = nearestName(
    asked,
    dictionary.map(({ name }) => name),
  );
  return query(heading, {
    code: "field-unknown",
    message: "the notebook matches this column to a field that does not exist.",
    found: asked,
    expected: "a field of the dictionary",
    remedy: near === undefined ? "match it again" : `did you mean "${near}"?`,
  });
}
