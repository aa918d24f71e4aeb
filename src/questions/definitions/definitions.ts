import type { CaseReading } from "../../cases/case-reading.ts";
import type { SectionedRates } from "../../charts/sectioned-rates.ts";
import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import { eyeCount } from "../../outcomes/eye-record.ts";
import {
  failureDefinitions,
  type OutcomeRules,
  oilTreatments,
  undecidedTreatments,
} from "../../outcomes/outcome-rules.ts";
import { countEveryWay } from "../../outcomes/ways-of-counting.ts";
import { leftOutOf, PickBook } from "../answering/answered-eyes.ts";
import {
  clusteredIntervals,
  comparingPeople,
  manyLeftOut,
  manyNotKnown,
  pairedEyes,
  smallNumbers,
  techniquesChosen,
  whatWasAssumed,
} from "../answering/cautions.ts";
import { casesParameter, selectionGiven, selectionParameters } from "../answering/eye-selection.ts";
import { groupEyes } from "../answering/grouping.ts";
import { durationText, timeIn } from "../answering/time-words.ts";
import { headlineOf } from "../failure-rate/rate-of-group.ts";
import {
  byParameter,
  durationGiven,
  question,
  textGiven,
  thingGiven,
  type Worked,
  withinParameter,
} from "../question.ts";
import {
  type DefinitionParts,
  definitionsFigures,
  definitionsRecord,
  definitionsTable,
  leftOpen,
  rowKey,
} from "./definitions-parts.ts";
import { definitionsBrief, definitionsSentence } from "./definitions-sentence.ts";
import { ratesEveryWay } from "./rates-every-way.ts";
import { severalDefinitions } from "./several-definitions.ts";

/**
 * Does it hang on what we call a failure? The same failure rate of the same eyes under every
 * definition of failure, every treatment of oil and of the undecided, in one picture; how far the
 * rate moves; and which eyes fail whichever way they are counted.
 */
export const definitions = question(
  {
    name: "definitions",
    meaning: "the same failure rate under every definition of failure, side by side",
    asks: "Does it hang on what we call a failure?",
    example: "definitions(cases, within: 12 months)",
    parameters: [
      casesParameter,
      byParameter,
      { ...withinParameter, whenLeftOut: "to the last visit" },
      chosen("failure", "the definition chosen, marked in the picture", failureDefinitions),
      chosen("oil", "the treatment of eyes with oil in that is chosen", oilTreatments),
      chosen("undecided", "the treatment of undecided eyes that is chosen", undecidedTreatments),
      ...selectionParameters,
    ],
  },
  work,
);

function chosen(name: string, meaning: string, choices: readonly string[]): Parameter {
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

function work(given: GivenArguments): Worked {
  const reading = thingGiven(given, "cases").content as CaseReading;
  const selected = selectionGiven(given, reading);
  if ("problems" in selected) return selected;
  const rules = rulesGiven(given);
  const counted = countEveryWay(reading, rules, selected.selection);
  const grouped = groupEyes(counted.chosen, given.rows.get("by"));
  if ("problems" in grouped) return grouped;
  const { grouping } = grouped;
  return answer({ counted, grouping, rules, rates: ratesEveryWay(counted, grouping, rules) });
}

function rulesGiven(given: GivenArguments): OutcomeRules {
  const within = durationGiven(given, "within");
  return {
    failure: textGiven(given, "failure", failureDefinitions[0]),
    oil: textGiven(given, "oil", oilTreatments[0]),
    undecided: textGiven(given, "undecided", undecidedTreatments[0]),
    ...(within === undefined
      ? {}
      : { window: { length: timeIn("days", within), text: durationText(within) } }),
  };
}

function answer(parts: DefinitionParts): Worked {
  const { counted, grouping, rates } = parts;
  const eyes = eyeCount(counted.chosen);
  const picks = new PickBook();
  const table = definitionsTable(parts, picks);
  picks.add("chosen:failed", "failed by the definition chosen", rates.chosen.failedEyes);
  const everyone = [...rates.chosen.knownEyes, ...rates.chosen.unknownEyes];
  picks.add("chosen:all", "all eyes", everyone);
  picks.add("chosen:known", "outcome known by the definition chosen", rates.chosen.knownEyes);
  picks.add("chosen:not known", "not known by the definition chosen", rates.chosen.unknownEyes);
  picks.add("always", "failed under every way of counting", rates.always);
  picks.add("never", "failed under no way of counting", rates.never);
  picks.add("sometimes", "failed under some ways of counting", rates.sometimes);
  const leftOut = leftOutOf(counted.chosen);
  return {
    answered: {
      answer: {
        question: "definitions",
        asks: "Does it hang on what we call a failure?",
        sentence: definitionsSentence(parts),
        brief: definitionsBrief(parts),
        table,
        chart: { draw: "sectioned rates", rates: drawnRates(parts) },
        cautions: [
          ...severalDefinitions(),
          ...smallNumbers(groupsAsChosen(parts)),
          ...techniquesChosen(grouping.by),
          ...comparingPeople(grouping.by),
          ...manyNotKnown(parts.counted.chosen, rates.chosen.notKnown, eyes),
          ...whatWasAssumed(counted.chosen, grouping.by),
          ...manyLeftOut(leftOut, eyes),
          ...pairedEyes(counted.chosen, clusteredIntervals),
        ],
        unit: "eyes",
        used: eyes,
        leftOut,
        figures: definitionsFigures(parts),
      },
      picks: picks.picks,
      record: definitionsRecord(parts),
    },
  };
}

/** The groups compared, as the definition chosen counts them. */
function groupsAsChosen({ grouping, rates }: DefinitionParts) {
  if (grouping.label === undefined) return [rates.chosen];
  return rates.sections
    .slice(0, -1)
    .flatMap(({ label, rows }) =>
      rows
        .filter((row) => row.chosen)
        .map(({ rate }) => ({ label, failed: rate.failed, eyes: rate.eyes + rate.notKnown })),
    );
}

/** The rows of the table lead to the same eyes, under the same keys. */
function drawnRates(parts: DefinitionParts): SectionedRates {
  return {
    counted: "failed",
    tone: "failed",
    reach: `how far the rate moves: ${leftOpen(parts)}; in bold the way of counting chosen`,
    sections: parts.rates.sections.map(({ label, rows }, section) => ({
      label,
      rows: rows.map((row, position) => {
        const headline = headlineOf(row.rate);
        return {
          label: row.label,
          events: row.rate.failed,
          total: row.rate.eyes + row.rate.notKnown,
          rate: headline?.estimate ?? null,
          lower: headline?.lower ?? null,
          upper: headline?.upper ?? null,
          lowest: row.lowest,
          highest: row.highest,
          chosen: row.chosen,
          ...(row.rate.failed === 0 ? {} : { pick: `${rowKey(section, position)}:failed` }),
        };
      }),
    })),
  };
}
