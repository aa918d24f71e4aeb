import type { Problem } from "../../problem/problem.ts";
import { foldSpelling } from "../fold-spelling.ts";
import type { ColumnPlan } from "../match-columns.ts";
import type { ReadableCases } from "../open-cases.ts";
import type { RawTable } from "../raw-table.ts";
import { isNameOfPerson } from "./is-name-of-person.ts";

/** Files in which codes stand for the names of those who operated. */
export interface CodedPeople {
  readonly files: readonly ReadableCases[];
  readonly problems: readonly Problem[];
}

/**
 * Puts S1, S2 … in place of the names of surgeons and supervisors, in the order in which they first
 * appear in all files, so that files that come later change none; a person has one code in both
 * columns. What is a code already stays, and so do all names of a column that the notebook matches
 * with `names: shown`.
 */
export function codedPeople(files: readonly ReadableCases[]): CodedPeople {
  const columns = files.map(({ matched }) => peopleIn(matched.plans));
  const written = files.map(({ matched: { table } }, i) =>
    columns[i]!.map(({ position }) => table.columns[position]!.different),
  );
  const all = written.flat();
  const people = new PeopleCodes(all);
  if (!all.some((values) => values.some(isNameOfPerson))) return { files, problems: [] };
  const coded = files.map((file, i) => withCodes(file, columns[i]!, people));
  const problems = files.flatMap(({ facts, matched: { table } }, i) =>
    columns[i]!.flatMap(({ position }, j): Problem | [] => {
      const names = written[i]![j]!.filter(isNameOfPerson);
      const codes = new Set(names.map((name) => people.codeOf(name)));
      const place = { file: facts.name, field: table.headings[position]! };
      return codes.size === 0 ? [] : namesCoded(place, codes);
    }),
  );
  return { files: coded, problems };
}

const fields: ReadonlySet<string> = new Set(["surgeon", "supervisor"]);

/** The columns whose names are not to be shown. */
function peopleIn(plans: readonly ColumnPlan[]): readonly ColumnPlan[] {
  return plans.filter(
    ({ spec, isField, settled }) =>
      isField && fields.has(spec?.name ?? "") && settled?.names !== "shown",
  );
}

/** Goes by rows, so that codes rise with the first appearance in either column. */
function withCodes(
  file: ReadableCases,
  plans: readonly ColumnPlan[],
  people: PeopleCodes,
): ReadableCases {
  const { table } = file.matched;
  const coded = new Map(plans.map(({ position }) => [position, new Map<number, string>()]));
  for (let row = 0; row < table.lines.length; row++) {
    for (const [position, codes] of coded) {
      const written = table.columns[position]!.at(row)!;
      if (written !== "" && isName(written, people)) codes.set(row, people.codeOf(written));
    }
  }
  const columns = table.columns.map((column, i) => column.with(coded.get(i) ?? new Map()));
  const withPeople: RawTable = { ...table, columns };
  return { ...file, matched: { ...file.matched, table: withPeople } };
}

function isName(written: string, people: PeopleCodes): boolean {
  return people.knows(written) || isNameOfPerson(written);
}

class PeopleCodes {
  readonly #byName = new Map<string, string>();
  readonly #byWriting = new Map<string, string>();
  readonly #taken: ReadonlySet<string>;
  #last = 0;

  /** `written`: everything in the columns, so that no code is given that a person there has. */
  constructor(written: readonly (readonly string[])[]) {
    this.#taken = new Set(written.flatMap((values) => values.map(foldSpelling)));
  }

  knows(written: string): boolean {
    return this.#byWriting.has(written);
  }

  codeOf(written: string): string {
    const known = this.#byWriting.get(written);
    if (known !== undefined) return known;
    const name = foldSpelling(written);
    const code = this.#byName.get(name) ?? this.#next();
    this.#byName.set(name, code);
    this.#byWriting.set(written, code);
    return code;
  }

  #next(): string {
    do this.#last++;
    while (this.#taken.has(`s${this.#last}`));
    return `S${this.#last}`;
  }
}

function namesCoded(place: Problem["place"], codes: ReadonlySet<string>): Problem {
  const [first] = codes;
  const held =
    codes.size === 1
      ? `the name of one person; a code (${first}) stands in place of it`
      : `${codes.size} names of people; codes (${first} …) stand in place of them`;
  return {
    code: "names-coded",
    severity: "note",
    place,
    message: `this column holds ${held}.`,
    remedy: "to see the names, match this column with names: shown",
  };
}
