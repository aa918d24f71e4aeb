import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Problem } from "../../problem/problem.ts";
import { type SurvivalEstimate, survivalAt } from "../../statistics/survival-at.ts";
import { survivalTestAt } from "../../statistics/survival-difference.ts";
import type { AnswerCell, FigureRecord, Sentence } from "../answer.ts";
import { curveOfEyes } from "../answering/curve-of-eyes.ts";
import { estimateCell } from "../answering/estimate-cell.ts";
import type { Group } from "../answering/grouping.ts";
import type { Landmark } from "../answering/landmarks.ts";
import { durationText, timeIn } from "../answering/time-words.ts";
import { counted, percent, percentRange, pValue } from "../answering/wording.ts";
import { durationGiven } from "../question.ts";

/** The curves read at one time, and whether they are equally high there. */
export interface ComparisonAt extends Landmark {
  /** By group: the share still attached; null where its curve does not reach so far. */
  readonly attached: readonly (SurvivalEstimate | null)[];
  readonly degreesOfFreedom: number;
  /** Null where there is no test: a curve that ends before, or stands at 0 or 1. */
  readonly chiSquare: number | null;
  readonly p: number | null;
}

/** The time of `at:`, if it is given; after the window is a problem, since follow-up was cut there. */
export function timeAt(
  record: EyeRecord,
  given: GivenArguments,
  until: number,
): { readonly landmark?: Landmark } | { readonly problems: readonly Problem[] } {
  const asked = durationGiven(given, "at");
  if (asked === undefined) return {};
  const landmark = { time: timeIn(record.timeUnit, asked), text: durationText(asked) };
  if (landmark.time <= until) return { landmark };
  return {
    problems: [
      {
        code: "time-after-window",
        severity: "stop",
        place: { span: given.values.get("at")?.span ?? given.span },
        message: `the curves end before ${landmark.text}`,
        found: landmark.text,
        expected: "a time within the window",
        remedy: "ask for an earlier time, or give the eyes a longer window",
      },
    ],
  };
}

/** Klein, Logan, Harhoff and Andersen's test (Statistics in Medicine 2007) at one time. */
export function comparisonAt(
  record: EyeRecord,
  groups: readonly Group[],
  landmark: Landmark,
): ComparisonAt {
  const curves = groups.map(({ eyes }) => curveOfEyes(record, eyes));
  const test = survivalTestAt(curves, landmark.time);
  return {
    ...landmark,
    attached: curves.map((curve) => survivalAt(curve, landmark.time)),
    degreesOfFreedom: test?.degreesOfFreedom ?? groups.length - 1,
    chiSquare: test?.chiSquare ?? null,
    p: test?.pValue ?? null,
  };
}

/** " Still attached at 3 months (95% intervals): one 92.0% of 50 eyes (…); two …. Test of …" */
export function atClause(
  { text, attached, degreesOfFreedom, chiSquare, p }: ComparisonAt,
  groups: readonly { readonly label: string; readonly eyes: number; readonly isTold: boolean }[],
): Sentence {
  const told = groups.flatMap(({ label, eyes, isTold }, position) => {
    const at = attached[position] ?? null;
    if (!isTold) return [];
    if (at === null) return [`${label} not followed so long`];
    return [`${label} ${percent(at.estimate)} of ${counted(eyes, "eye")} (${percentRange(at)})`];
  });
  const shares = told.length === 0 ? "" : `${told.join("; ")}. `;
  const opening = shares === "" ? `At ${text}: ` : `Still attached at ${text} (95% intervals): `;
  return [` ${opening}${shares}${testWords({ degreesOfFreedom, chiSquare, p })}`];
}

function testWords(test: Pick<ComparisonAt, "degreesOfFreedom" | "chiSquare" | "p">): string {
  const { degreesOfFreedom, chiSquare, p } = test;
  if (chiSquare === null || p === null) {
    return "There is no test of equal shares at that time: a curve has ended, or stands at 0% or 100%.";
  }
  const how = `chi-square ${chiSquare.toFixed(2)} on ${counted(degreesOfFreedom, "degree")} of freedom`;
  return `Test of equal shares at that time: ${how}, ${pValue(p)}.`;
}

export function atCell({ attached }: ComparisonAt, position: number): AnswerCell {
  const at = attached[position] ?? null;
  return at === null
    ? { text: "not followed so long", value: null }
    : estimateCell(at.estimate, at);
}

export function atFigures({ text, degreesOfFreedom, chiSquare, p }: ComparisonAt): FigureRecord {
  return { at: text, at_chi_square: chiSquare, at_degrees_of_freedom: degreesOfFreedom, at_p: p };
}
