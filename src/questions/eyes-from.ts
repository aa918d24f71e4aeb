import type { CaseReading } from "../cases/case-reading.ts";
import type {
  GivenArguments,
  Outcome,
  RowColumn,
  RowExpression,
  Word,
} from "../formula/vocabulary.ts";
import type { TimeUnit } from "../outcomes/eye-record.ts";
import { eyesFrom } from "../outcomes/eyes-from.ts";
import type { Problem } from "../problem/problem.ts";
import { rowColumns } from "./answering/row-columns.ts";
import { durationText, timeIn } from "./answering/time-words.ts";
import { eyesValue } from "./index-eyes.ts";
import { durationGiven, textGiven, thingGiven } from "./question.ts";

const units: readonly TimeUnit[] = ["days", "weeks", "months", "years"];

/** Eyes from a file that already holds one row an eye with its time and its event. */
export const eyesFromWord: Word = {
  name: "eyes_from",
  meaning: "eyes from a file with one row an eye, its follow-up time and whether it failed",
  parameters: [
    {
      name: "cases",
      meaning: "the cases that were opened",
      takes: "value",
      kinds: ["cases"],
      required: true,
    },
    {
      name: "time",
      meaning: "follow-up to the failure or to the last visit",
      takes: "row",
      kinds: ["number", "duration"],
      required: true,
    },
    {
      name: "event",
      meaning: "whether it failed at that time",
      takes: "row",
      kinds: ["truth"],
      required: true,
    },
    {
      name: "unit",
      meaning: "the unit of the time column",
      takes: "value",
      kinds: ["text"],
      required: false,
      choices: units,
      whenLeftOut: '"days"',
    },
    {
      name: "patient",
      meaning: "which rows belong to one person",
      takes: "row",
      kinds: ["text", "number"],
      required: false,
      whenLeftOut: "the column patient, where there is one",
    },
    {
      name: "within",
      meaning: "follow-up ends here; later events are not counted",
      takes: "value",
      kinds: ["duration"],
      required: false,
      whenLeftOut: "to the end of follow-up",
    },
  ],
  answers: "eyes",
  call: callEyesFrom,
};

function callEyesFrom(given: GivenArguments): Outcome {
  const reading = thingGiven(given, "cases").content as CaseReading;
  const time = columnGiven(reading, given.rows.get("time"), ["number", "duration"]);
  const event = columnGiven(reading, given.rows.get("event"), ["truth"]);
  const patient = columnGiven(reading, given.rows.get("patient"), ["text", "number"]);
  const problems = [time, event, patient].flatMap((each) =>
    "problems" in each ? each.problems : [],
  );
  if (problems.length > 0) return { ok: false, problems };
  const unit = textGiven(given, "unit", "days" as TimeUnit);
  const within = durationGiven(given, "within");
  const at = (column: typeof time) => ("column" in column ? column.column?.at : undefined);
  const patientAt = at(patient);
  const record = eyesFrom(reading, {
    time: at(time) as (row: number) => number | null,
    event: at(event) as (row: number) => boolean | null,
    unit,
    ...(patientAt === undefined
      ? {}
      : { patient: (row: number) => (patientAt(row) === null ? null : String(patientAt(row))) }),
    ...(within === undefined
      ? {}
      : { window: { length: timeIn(unit, within), text: durationText(within) } }),
  });
  return { ok: true, value: eyesValue(record) };
}

type ColumnGiven = { readonly column?: RowColumn } | { readonly problems: readonly Problem[] };

function columnGiven(
  reading: CaseReading,
  expression: RowExpression | undefined,
  kinds: readonly RowColumn["kind"][],
): ColumnGiven {
  if (expression === undefined) return {};
  const bound = expression.over(rowColumns(reading.cases));
  if (!bound.ok) return { problems: bound.problems };
  if (kinds.includes(bound.column.kind)) return { column: bound.column };
  return {
    problems: [
      {
        code: "wrong-kind-of-column",
        severity: "stop",
        place: { span: expression.span },
        message: `${expression.text} is a ${bound.column.kind}`,
        found: expression.text,
        expected: `a ${kinds.join(" or a ")}`,
        ...(kinds[0] === "truth" ? { remedy: "write a condition, such as status = 1" } : {}),
      },
    ],
  };
}
