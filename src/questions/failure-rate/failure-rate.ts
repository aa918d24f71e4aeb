import type { RateIntervals } from "../../charts/rate-intervals.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import { eyeCount } from "../../outcomes/eye-record.ts";
import { leftOutOf, PickBook, pickRecord } from "../answering/answered-eyes.ts";
import { asked } from "../answering/asked.ts";
import {
  clusteredIntervals,
  comparingPeople,
  earlyVisits,
  manyLeftOut,
  manyNotKnown,
  pairedEyes,
  smallNumbers,
  techniquesChosen,
  whatWasAssumed,
} from "../answering/cautions.ts";
import { splitOf } from "../answering/grouping.ts";
import { toleranceGiven } from "../answering/window.ts";
import { percent } from "../answering/wording.ts";
import {
  byParameter,
  eyesParameter,
  numberGiven,
  question,
  textGiven,
  type Worked,
  withinParameter,
} from "../question.ts";
import { rateBrief } from "./failure-rate-brief.ts";
import { type RateParts, rateFigures } from "./failure-rate-parts.ts";
import { rateSentence } from "./failure-rate-sentence.ts";
import { rateTable, rowKey } from "./failure-rate-table.ts";
import {
  type GroupRate,
  headlineOf,
  intervalMethods,
  isByCurve,
  type RateOptions,
  rateOfGroup,
} from "./rate-of-group.ts";

/**
 * How often did it fail? Counts among all eyes; the curve's estimate at the window, which uses every
 * eye for as long as it was followed; beside it the share among eyes whose outcome at the window
 * is known, with its interval, and the bounds if none or all of the others had failed.
 */
export const failureRate = question(
  {
    name: "failure_rate",
    meaning: "how often it failed, with interval, bounds and the curve's estimate",
    asks: "How often did it fail?",
    example: "failure_rate(eyes, by: technique)",
    parameters: [
      eyesParameter,
      byParameter,
      withinParameter,
      {
        name: "interval",
        meaning: "the method of the 95% interval",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: intervalMethods,
        whenLeftOut: '"Wilson"',
      },
      {
        name: "tolerance",
        meaning: "how early the visit that ends the window may come",
        takes: "value",
        kinds: ["duration"],
        required: false,
        whenLeftOut: "0 days",
      },
      {
        name: "beside",
        meaning: "a rate to draw beside the intervals, such as a standard",
        takes: "value",
        kinds: ["number"],
        required: false,
        whenLeftOut: "none",
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const of = asked(given, { times: false });
  if ("problems" in of) return of;
  const { record, grouping, window } = of;
  const options: RateOptions = {
    ...(window === undefined ? {} : { window }),
    tolerance: toleranceGiven(record, given),
    method: textGiven(given, "interval", intervalMethods[0]),
  };
  const everyone = { label: "all eyes", eyes: Array.from(record.time, (_, eye) => eye) };
  const total = rateOfGroup(record, everyone, options);
  const groups = grouping.groups.map((group) => rateOfGroup(record, group, options));
  return answer({
    record,
    grouping,
    total,
    groups,
    window: options.window,
    tolerance: options.tolerance,
    beside: numberGiven(given, "beside"),
  });
}

function answer(parts: RateParts): Worked {
  const { record, grouping, total, groups } = parts;
  const picks = new PickBook();
  const split = grouping.label !== undefined;
  const rows = split ? [...groups, total] : [total];
  const table = rateTable(parts, rows, picks);
  const leftOut = leftOutOf(record);
  return {
    answered: {
      answer: {
        question: "failure_rate",
        asks: "How often did it fail?",
        sentence: rateSentence(parts),
        brief: rateBrief(parts),
        table,
        chart: { draw: "intervals", intervals: drawnRates(rows, parts) },
        cautions: [
          ...smallNumbers(groups),
          ...techniquesChosen(grouping.by),
          ...comparingPeople(grouping.by),
          ...manyNotKnown(record, total.notKnown, eyeCount(record)),
          ...earlyVisits(record, parts),
          ...whatWasAssumed(record, grouping.by),
          ...manyLeftOut(leftOut, eyeCount(record)),
          ...pairedEyes(record, treatmentOfPairs(parts)),
        ],
        unit: "eyes",
        used: eyeCount(record),
        leftOut,
        figures: {
          ...rateFigures(total),
          headline: `${total.failed} of ${eyeCount(record)}`,
          within: parts.window?.text ?? null,
          failure: record.rules?.failure ?? null,
          ...(split
            ? { groups: groups.map((each) => ({ group: each.label, ...rateFigures(each) })) }
            : {}),
        },
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

/** The curve's interval is clustered in any case; the exact one of a share cannot be. */
function treatmentOfPairs({ total, window }: RateParts): string {
  if (total.interval?.method !== "Clopper–Pearson") return clusteredIntervals;
  const curve = window === undefined ? "" : "; the curve's allows for it (clustered by patient)";
  return `the exact interval treats eyes as independent${curve}`;
}

/** The rows of the table lead to the same eyes, under the same keys. */
function drawnRates(rows: readonly GroupRate[], { beside, grouping }: RateParts): RateIntervals {
  return {
    ...splitOf(grouping),
    ...(rows.some(isByCurve) ? { how: "by the curve" } : {}),
    tone: "failed",
    counted: "failed",
    ...(beside === undefined ? {} : { reference: { rate: beside, label: percent(beside) } }),
    rows: rows.map((rate, position) => ({
      label: rate.label,
      events: rate.failed,
      total: rate.eyes + rate.notKnown,
      rate: headlineOf(rate)?.estimate ?? null,
      lower: headlineOf(rate)?.lower ?? null,
      upper: headlineOf(rate)?.upper ?? null,
      ...(rate.failed === 0 ? {} : { pick: `${rowKey(rows, position)}:failed` }),
    })),
  };
}
