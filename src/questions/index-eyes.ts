import type { CaseReading } from "../cases/case-reading.ts";
import type { Thing, Value } from "../formula/value.ts";
import type {
  GivenArguments,
  Outcome,
  Parameter,
  RowExpression,
  Word,
} from "../formula/vocabulary.ts";
import type { EyeRecord } from "../outcomes/eye-record.ts";
import { eyeCount } from "../outcomes/eye-record.ts";
import { type EyeSelection, indexEyes } from "../outcomes/index-eyes.ts";
import {
  failureDefinitions,
  type OutcomeRules,
  oilTreatments,
  undecidedTreatments,
} from "../outcomes/outcome-rules.ts";
import { rowColumns } from "./answering/row-columns.ts";
import { durationText, timeIn } from "./answering/time-words.ts";
import { durationGiven, textGiven, thingGiven, valueGiven } from "./question.ts";

/** Cases to index eyes: the primary repairs of the period, each followed through its later rows. */
export const indexEyesWord: Word = {
  name: "index_eyes",
  meaning: "each eye's primary repair, followed through its later operations",
  parameters: [
    {
      name: "cases",
      meaning: "the cases that were opened",
      takes: "value",
      kinds: ["cases"],
      required: true,
    },
    choice("failure", "what counts as a failure", failureDefinitions),
    choice("oil", "how eyes with silicone oil in are followed", oilTreatments),
    choice("undecided", "eyes not decided at their last visit", undecidedTreatments),
    {
      name: "within",
      meaning: "follow-up ends here; later events are not counted",
      takes: "value",
      kinds: ["duration"],
      required: false,
      whenLeftOut: "to the last visit",
    },
    day("from", "first day of the primary repairs"),
    day("to", "last day of the primary repairs"),
    {
      name: "where",
      meaning: "only eyes whose primary repair fits this condition",
      takes: "row",
      kinds: ["truth"],
      required: false,
      whenLeftOut: "all",
    },
  ],
  answers: "eyes",
  call: callIndexEyes,
};

function choice(name: string, meaning: string, choices: readonly string[]): Parameter {
  return {
    name,
    meaning,
    takes: "value",
    kinds: ["text"],
    required: false,
    choices,
    whenLeftOut: `"${choices[0]}"`,
  };
}

function day(name: string, meaning: string): Parameter {
  return { name, meaning, takes: "value", kinds: ["day"], required: false, whenLeftOut: "any day" };
}

function callIndexEyes(given: GivenArguments): Outcome {
  const reading = thingGiven(given, "cases").content as CaseReading;
  const within = durationGiven(given, "within");
  const rules: OutcomeRules = {
    failure: textGiven(given, "failure", failureDefinitions[0]),
    oil: textGiven(given, "oil", oilTreatments[0]),
    undecided: textGiven(given, "undecided", undecidedTreatments[0]),
    ...(within === undefined
      ? {}
      : { window: { length: timeIn("days", within), text: durationText(within) } }),
  };
  const where = given.rows.get("where");
  const condition = where === undefined ? undefined : wanted(reading, where);
  if (condition !== undefined && "problems" in condition) {
    return { ok: false, problems: condition.problems };
  }
  const selection: EyeSelection = {
    ...dayGiven(given, "from"),
    ...dayGiven(given, "to"),
    ...(condition === undefined ? {} : { wanted: condition.wanted }),
  };
  return { ok: true, value: eyesValue(indexEyes(reading, rules, selection)) };
}

function dayGiven(given: GivenArguments, name: "from" | "to"): EyeSelection {
  const value = valueGiven(given, name);
  return value?.kind === "day" ? { [name]: value.day } : {};
}

function wanted(reading: CaseReading, where: RowExpression) {
  const bound = where.over(rowColumns(reading.cases));
  if (!bound.ok) return { problems: bound.problems };
  if (bound.column.kind === "truth") {
    const column = bound.column;
    return { wanted: (row: number) => column.at(row) as boolean | null };
  }
  return {
    problems: [
      {
        code: "not-a-condition",
        severity: "stop" as const,
        place: { span: where.span },
        message: `${where.text} is not a condition`,
        found: where.text,
        expected: 'something that holds or not, such as technique = "scleral buckle"',
      },
    ],
  };
}

/** A record of eyes as a value of the language. */
export function eyesValue(record: EyeRecord): Thing {
  const eyes = eyeCount(record);
  const failed = record.event.reduce((sum, event) => sum + event, 0);
  return {
    kind: "thing",
    of: "eyes",
    parts: new Map<string, Value>([
      ["eyes", { kind: "number", number: eyes }],
      ["failed", { kind: "number", number: failed }],
    ]),
    content: record,
  };
}
