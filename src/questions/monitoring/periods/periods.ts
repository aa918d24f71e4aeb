import type { GivenArguments } from "../../../formula/vocabulary.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import type { Problem } from "../../../problem/problem.ts";
import type { Caution, FigureRecord, LeftOut, Sentence } from "../../answer.ts";
import { PickBook, pickRecord } from "../../answering/answered-eyes.ts";
import {
  comparingPeople,
  isComparingPeople,
  manyLeftOut,
  pairedEyes,
  smallNumbers,
  whatWasAssumed,
} from "../../answering/cautions.ts";
import { failedPhrase, rulesClause } from "../../answering/failure-words.ts";
import { type Group, groupEyes, notRecorded } from "../../answering/grouping.ts";
import { counted, listed, percent } from "../../answering/wording.ts";
import { doubling, enoughWords } from "../../people/enough-line.ts";
import {
  type JudgedEyes,
  judgedEyes,
  judgingParameters,
  knownWords,
  notJudged,
  openable,
} from "../../people/judged-eyes.ts";
import {
  peopleNotKnown,
  ratesAreOfPeople,
  severalLooks,
  tooRecentToJudge,
} from "../../people/people-cautions.ts";
import {
  byParameter,
  eyesGiven,
  eyesParameter,
  numberGiven,
  question,
  textGiven,
  type Worked,
} from "../../question.ts";
import {
  type CountedPeriod,
  countedPeriods,
  type PeriodLimits,
  periodLimits,
} from "./counted-period.ts";
import { oddsFigures, oddsOf, periodOddsWords } from "./period-odds-words.ts";
import { periodFigures, periodPanel, periodTable } from "./period-table.ts";
import { quarters } from "./quarters.ts";

interface PeriodParts {
  readonly judged: JudgedEyes;
  readonly periods: readonly CountedPeriod[];
  readonly label: string;
  readonly by: readonly string[];
  readonly undated: readonly number[];
  readonly target: number | undefined;
  readonly limits: PeriodLimits;
}

/**
 * Does the rate change from period to period? A p-chart: the failure rate of each period around the
 * rate of all, or a target, within limits of chance by the size of each period: exact binomial at the
 * level of three sigma (99.73%), or the three-sigma limits of the trade (Shewhart 1931).
 */
export const periods = question(
  {
    name: "periods",
    meaning: "the failure rate from quarter to quarter, within limits of chance",
    asks: "Does it change from quarter to quarter?",
    example: "periods(eyes, within: 3 months)",
    parameters: [
      eyesParameter,
      {
        ...byParameter,
        whenLeftOut: "quarters of operation",
        meaning: "the periods: year(operation_date)",
      },
      {
        name: "target",
        meaning: "the failure rate to stand around",
        takes: "value",
        kinds: ["number"],
        required: false,
        whenLeftOut: "the rate of all periods",
        byNameOnly: true,
      },
      {
        name: "limits",
        meaning: "how the limits are had",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: periodLimits,
        whenLeftOut: `"${periodLimits[0]}"`,
        byNameOnly: true,
      },
      ...judgingParameters,
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const found = judgedEyes(record, given);
  const split = splitOf(record, given);
  const target = numberGiven(given, "target");
  const wrong =
    target === undefined || (target > 0 && target < 1) ? [] : [notATarget(target, given)];
  const problems = [
    ...wrong,
    ...[found, split].flatMap((each) => ("problems" in each ? each.problems : [])),
  ];
  if (problems.length > 0 || "problems" in found || "problems" in split) return { problems };
  const limits = textGiven(given, "limits", periodLimits[0]);
  const counted = countedPeriods(split.groups, found.judged, { target, limits });
  return answer({ ...split, judged: found.judged, periods: counted, target, limits }, record);
}

type Split = Pick<PeriodParts, "label" | "by" | "undated"> & { readonly groups: readonly Group[] };

function splitOf(
  record: EyeRecord,
  given: GivenArguments,
): Split | { readonly problems: readonly Problem[] } {
  const by = given.rows.get("by");
  if (by !== undefined) {
    const grouped = groupEyes(record, by);
    if ("problems" in grouped) return grouped;
    const { groups, label = "", by: names } = grouped.grouping;
    const undated = groups.find((group) => group.label === notRecorded)?.eyes ?? [];
    return {
      groups: groups.filter((group) => group.label !== notRecorded),
      label,
      by: names,
      undated,
    };
  }
  const found = quarters(record);
  if (found === undefined) return { problems: [noDays(given)] };
  return { ...found, label: "quarter", by: [] };
}

function answer(parts: PeriodParts, record: EyeRecord): Worked {
  const { judged, periods: all, label, undated } = parts;
  const picks = new PickBook();
  const leftOut = [
    ...notJudged(judged, picks),
    ...openable(picks, "undated", { reason: `${label} not recorded`, eyes: undated }),
  ];
  const centre = all[0]?.centre;
  return {
    answered: {
      answer: {
        question: "periods",
        asks: "Does it change from quarter to quarter?",
        sentence: periodSentence(parts, picks),
        brief: parts.periods[0] ? [outsideWords(parts, parts.periods[0].centre)] : [],
        table: periodTable(label, all, picks),
        ...(centre === undefined
          ? {}
          : { chart: { draw: "monitoring" as const, monitoring: drawn(parts, centre) } }),
        cautions: cautionsOf(parts, leftOut),
        unit: "eyes",
        used: judged.known.length,
        leftOut,
        figures: periodsFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function cautionsOf({ judged, by }: PeriodParts, leftOut: readonly LeftOut[]): Caution[] {
  const failed = judged.known.filter(judged.hasFailed).length;
  return [
    ...(isComparingPeople(by) ? comparingPeople(by) : [ratesAreOfPeople()]),
    ...smallNumbers([{ label: "all", failed, eyes: judged.known.length }]),
    severalLooks(),
    ...tooRecentToJudge(judged),
    ...peopleNotKnown(judged),
    ...whatWasAssumed(judged.record, by),
    ...manyLeftOut(leftOut, judged.known.length),
    ...pairedEyes(judged.record),
  ];
}

function periodsFigures({ judged, periods: all }: PeriodParts): FigureRecord {
  const eyes = judged.known.length;
  const failed = judged.known.filter(judged.hasFailed).length;
  return {
    eyes,
    failed,
    headline: `${failed} of ${eyes}`,
    headline_rate: eyes === 0 ? null : failed / eyes,
    centre: all[0]?.centre ?? null,
    periods: all.length,
    outside: all.filter(isOutside).length,
    ...oddsFigures(oddsOf(all)),
    groups: periodFigures(all),
  };
}

function isOutside({ point }: CountedPeriod): boolean {
  return point.position === "above" || point.position === "below";
}

function drawn({ periods: all, label, target }: PeriodParts, centre: number) {
  const name =
    target === undefined ? `all together ${percent(centre)}` : `target ${percent(centre)}`;
  const panel = periodPanel(all, {
    title: `failure rate with limits of chance; dotted: ${name}`,
    references: [{ value: centre, label: percent(centre) }],
    breaks: [],
  });
  return { places: all.map((period) => period.label), across: label, panels: [panel] };
}

function periodSentence(parts: PeriodParts, picks: PickBook): Sentence {
  const { judged, periods: all } = parts;
  const failed = judged.known.filter(judged.hasFailed);
  const [first] = all;
  if (first === undefined) return ["No eyes whose outcome is known to follow over time."];
  const pick = picks.add("all:failed", "all, failed", failed);
  const phrase = failedPhrase(judged.record, failed.length);
  return [
    `Of ${counted(judged.known.length, "eye")} ${knownWords(judged)}, `,
    pick === undefined ? phrase : { text: phrase, role: "failed", pick },
    `. ${outsideWords(parts, first.centre)} ${periodOddsWords(all, oddsOf(all))}`,
    ` The outcome of ${counted(judged.unknown.length, "eye")} more is not known.`,
    enoughWords(doubling(first.centre)),
    ...rulesClause(judged.record),
  ];
}

/** "Of 12 periods by quarter, 2025 Q4 (above) lies outside the exact limits around 14.2% (…)." */
function outsideWords(
  { periods: all, limits, target, label }: PeriodParts,
  centre: number,
): string {
  const outside = all
    .filter(isOutside)
    .map(({ label: name, point }) => `${name} (${point.position})`);
  const lies =
    outside.length === 0
      ? "none lies"
      : `${listed(outside)} ${outside.length === 1 ? "lies" : "lie"}`;
  const around = `${percent(centre)} (${target === undefined ? "the rate of all" : "the target"})`;
  return `Of ${counted(all.length, "period")} by ${label}, ${lies} outside the ${limits} limits around ${around}.`;
}

function noDays(given: GivenArguments): Problem {
  return {
    code: "no-days",
    severity: "stop",
    place: { span: given.span },
    message: "the file has no column for the day of operation, so there are no quarters",
    expected: "a column matched to operation_date, or by: with the periods",
  };
}

function notATarget(target: number, given: GivenArguments): Problem {
  return {
    code: "not-a-risk",
    severity: "stop",
    place: { span: given.values.get("target")?.span ?? given.span },
    message: "the target is not a share between 0 and 1",
    found: String(target),
    expected: "a share above 0 and below 1, such as 13%",
  };
}
