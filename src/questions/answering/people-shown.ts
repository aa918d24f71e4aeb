import type { CaseReading } from "../../cases/case-reading.ts";
import { columnNamed, type Table } from "../../cases/table.ts";
import type { Value } from "../../formula/value.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Answer, Answered } from "../answer.ts";

/** The columns that hold codes of people. */
const columnsOfPeople = ["surgeon", "supervisor"] as const;

/** Arguments that name a person by the code. */
const argumentsOfPeople = ["surgeon", "mine", "trainee"] as const;

/** An expression over those columns; text in quotation marks is no column. */
const namesColumn = /(?<![\p{L}\p{N}_])(surgeon|supervisor)(?![\p{L}\p{N}_])/u;

/**
 * The answer with the codes of surgeons and supervisors that it shows, in order: where it is split
 * by their column or asked of one of them. A code counts as shown where a whole text of the answer
 * is the code, so that a grade of PVR called C is no person; the person asked for always counts.
 */
export function withPeople(answer: Answer, given: GivenArguments): Answer {
  const own = asksOfPeople(given) ? shownCodes(answer, given) : [];
  const people = [...new Set([...(answer.people ?? []), ...inheritedBy(given), ...own])].sort();
  return people.length === 0 ? answer : { ...answer, people };
}

function asksOfPeople({ rows, repeated, values }: GivenArguments): boolean {
  const expressions = [
    ...rows.values(),
    ...repeated.flatMap((each) => ("over" in each ? each : [])),
  ];
  return (
    argumentsOfPeople.some((name) => values.has(name)) ||
    expressions.some(({ text }) => namesColumn.test(text.replace(/"[^"]*"/g, "")))
  );
}

/** An answer about an answer shows whom that one shows. */
function inheritedBy({ values }: GivenArguments): readonly string[] {
  return [...values.values()].flatMap(({ value }) =>
    value.kind === "thing" && value.of === "answer"
      ? ((value.content as Answered).answer.people ?? [])
      : [],
  );
}

function shownCodes(answer: Answer, given: GivenArguments): string[] {
  const { values } = given;
  const named = argumentsOfPeople.flatMap((name) => codeOf(values.get(name)?.value));
  const texts = new Set<string>();
  gather([answer.sentence, answer.table, answer.chart, answer.figures], texts);
  const codes = [...values.values()].flatMap(({ value }) => peopleIn(value));
  return [...named, ...codes.filter((code) => texts.has(code))];
}

function codeOf(value: Value | undefined): string[] {
  if (value?.kind === "text") return [value.text];
  return value?.kind === "number" ? [String(value.number)] : [];
}

/** The codes that eyes, cases or a table hold. */
function peopleIn(value: Value): string[] {
  const table = tableIn(value);
  if (table === undefined) return [];
  return columnsOfPeople
    .flatMap((name) => {
      const held = columnNamed(table, name)?.values ?? [];
      return [...new Set(Array.from(held, (each) => (each === null ? "" : String(each))))];
    })
    .filter((code) => code !== "");
}

function tableIn(value: Value): Table | undefined {
  if (value.kind !== "thing") return undefined;
  if (value.of === "cases") return (value.content as CaseReading).cases;
  if (value.of !== "eyes" && value.of !== "table") return undefined;
  return (value.content as { readonly table: Table }).table;
}

function gather(value: unknown, texts: Set<string>): void {
  if (typeof value === "string") texts.add(value);
  else if (typeof value === "object" && value !== null) {
    for (const held of Object.values(value)) gather(held, texts);
  }
}
