import { rowCount } from "../../cases/table.ts";
import type { Answer, Caution } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { comparingPeople, manyLeftOut, techniquesChosen } from "../answering/cautions.ts";
import type { Worked } from "../question.ts";
import { leftOutOfTable, tableRecord } from "./table-record.ts";
import type { TableValue } from "./table-value.ts";

/** What a question over a table says for itself; the rest follows from the table. */
export interface SaidOfTable extends Omit<Answer, "cautions" | "unit" | "used" | "leftOut"> {
  /** Columns that the answer is about, to be shown with the rows behind a number. */
  readonly about: readonly string[];
  /** Columns that its groups were made by, where it sets their outcomes side by side. */
  readonly compares?: readonly string[];
  readonly cautions?: readonly Caution[];
}

/** The whole answer, with what was left out of the table and the rows behind every number. */
export function tableAnswer(value: TableValue, said: SaidOfTable, picks: PickBook): Worked {
  const { about, compares = [], cautions = [], ...rest } = said;
  const used = rowCount(value.table);
  const unasked = value.leftOut
    .filter(({ asked }) => !asked)
    .map(({ reason, lines }) => ({ reason, count: lines.length }));
  const leftOut = leftOutOfTable(value, picks);
  return {
    answered: {
      answer: {
        ...rest,
        cautions: [
          ...cautions,
          ...techniquesChosen(compares),
          ...comparingPeople(compares),
          ...value.remarks,
          ...manyLeftOut(unasked, used),
        ],
        unit: value.unit,
        used,
        leftOut,
      },
      picks: picks.picks,
      record: tableRecord(value, about),
    },
  };
}

/** A share of few rows moves by chance alone. */
export function smallShares(value: TableValue, counts: readonly number[]): Caution[] {
  const small = counts.filter((rows) => rows > 0 && rows < 20).length;
  if (small === 0) return [];
  const which = small === 1 ? "one share is" : `${small} of ${counts.length} shares are`;
  return [
    {
      code: "small-numbers",
      text: `Small numbers: ${counts.length === 1 ? "the share is" : which} of fewer than 20 ${value.unit}, and would move with the next few.`,
    },
  ];
}

/** "case" or "eye". */
export function oneRow(value: TableValue): string {
  return value.unit === "eyes" ? "eye" : "case";
}
