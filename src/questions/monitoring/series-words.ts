import { dayText } from "../../formula/calendar.ts";
import type { Caution, LeftOut, Sentence } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { manyLeftOut, pairedEyes, smallNumbers, whatWasAssumed } from "../answering/cautions.ts";
import { failedPhrase } from "../answering/failure-words.ts";
import { counted } from "../answering/wording.ts";
import { expectationColumns, expectationWords } from "../people/expectation.ts";
import { expectedModelCautions } from "../people/expected-model-cautions.ts";
import { notJudged, openable, ownRecord } from "../people/judged-eyes.ts";
import {
  aboutPeople,
  expectedFrom,
  inOrderOfFile,
  peopleNotKnown,
  severalLooks,
  tooRecentToJudge,
} from "../people/people-cautions.ts";
import type { PersonSeries } from "./person-series.ts";

/** " from 2023-01-04 to 2025-09-12"; nothing without days. */
export function spanWords({ days }: Pick<PersonSeries, "days">): string {
  const known = days.filter((day) => day !== null);
  const [first, last] = [known[0], known.at(-1)];
  return first === undefined || last === undefined
    ? ""
    : ` from ${dayText(first)} to ${dayText(last)}`;
}

/** "operation 12", with its day where there is one: "operation 12 (2025-06-03)". */
export function operationWords({ days }: Pick<PersonSeries, "days">, position: number): string {
  const day = days[position];
  return `operation ${position + 1}${typeof day === "number" ? ` (${dayText(day)})` : ""}`;
}

/** What places across the chart are called: the month of operation, else the number. */
export function placesOf({ days }: Pick<PersonSeries, "days">): string[] {
  return days.map((day, i) => (day === null ? String(i + 1) : dayText(day).slice(0, 7)));
}

/** "E: 75 operations in order from … whose outcome is known, 12 failed, 9.1 expected from …". */
export function seriesHead(series: PersonSeries, picks: PickBook): Sentence {
  const { person, judged, eyes, failed, risks, expectation } = series;
  const failedEyes = eyes.filter((_, i) => failed[i]);
  const pick = picks.add("failed", `${person.code}, failed`, failedEyes);
  const phrase = failedPhrase(judged.record, failedEyes.length);
  const expected = risks.reduce((sum, risk) => sum + risk, 0);
  const at = judged.window === undefined ? "" : ` at ${judged.window.text}`;
  return [
    `${person.code}, ${counted(eyes.length, "operation")} in order${spanWords(series)} with the outcome${at} known: `,
    pick === undefined ? phrase : { text: phrase, role: "failed", pick },
    `, where ${expected.toFixed(1)} were expected ${expectationWords(expectation)}.`,
  ];
}

/** What the series leaves out, each reason leading to its eyes. */
export function leftOutOfSeries({ judged, silent }: PersonSeries, picks: PickBook): LeftOut[] {
  return [
    ...notJudged(judged, picks),
    ...silent.flatMap((each, i) => openable(picks, `silent${i}`, each)),
  ];
}

/** The cautions of every series of one person. */
export function seriesCautions(series: PersonSeries, leftOut: readonly LeftOut[]): Caution[] {
  const { judged, eyes, failed, expectation, person, isByDay, model } = series;
  const size = { label: person.code, eyes: eyes.length, failed: failed.filter(Boolean).length };
  return [
    aboutPeople(),
    ...smallNumbers([size]),
    severalLooks(),
    ...expectedFrom(expectation),
    ...expectedModelCautions([model]),
    ...tooRecentToJudge(judged),
    ...peopleNotKnown(judged),
    ...inOrderOfFile(isByDay),
    ...whatWasAssumed(ownRecord(judged), expectationColumns(expectation)),
    ...manyLeftOut(leftOut, eyes.length),
    ...pairedEyes(ownRecord(judged)),
  ];
}
