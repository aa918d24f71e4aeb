import type { CaseReading } from "../cases/case-reading.ts";
import type { Thing, Value } from "../formula/value.ts";
import type { GivenArguments, Outcome, Parameter, Word } from "../formula/vocabulary.ts";
import type { EyeRecord } from "../outcomes/eye-record.ts";
import { eyeCount } from "../outcomes/eye-record.ts";
import { indexEyes } from "../outcomes/index-eyes.ts";
import {
  failureDefinitions,
  type OutcomeRules,
  oilTreatments,
  undecidedTreatments,
} from "../outcomes/outcome-rules.ts";
import { selectionGiven, selectionParameters } from "./answering/eye-selection.ts";
import { durationText, timeIn } from "./answering/time-words.ts";
import { durationGiven, textGiven, thingGiven } from "./question.ts";

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
    ...selectionParameters,
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
  const chosen = selectionGiven(given, reading);
  if ("problems" in chosen) return { ok: false, problems: chosen.problems };
  return { ok: true, value: eyesValue(indexEyes(reading, rules, chosen.selection)) };
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
