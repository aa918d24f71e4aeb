import { describe, expect, test } from "vitest";
import { sentenceText } from "../../src/questions/answer.ts";
import { mostBriefCharacters } from "../../src/questions/answering/brief.ts";
import { casesOf } from "../outcomes/cases-of.ts";
import { ask, casesValue } from "./ask.ts";
import { eyesOf, type GroupOfEyes, rowsOfGroups } from "./groups-of-eyes.ts";

/** Sentences over none, one, few and many eyes and failures; one group and several. */
const grid: readonly (readonly [name: string, groups: readonly GroupOfEyes[]])[] = [
  ["no eyes", []],
  ["one eye, none failed", [{ technique: "vitrectomy", failed: 0, attached: 1 }]],
  ["one eye, failed", [{ technique: "vitrectomy", failed: 1, attached: 0 }]],
  ["few eyes", [{ technique: "vitrectomy", failed: 2, attached: 4, lost: 1 }]],
  ["few eyes, all failed", [{ technique: "vitrectomy", failed: 4, attached: 0 }]],
  ["many eyes, none failed", [{ technique: "vitrectomy", failed: 0, attached: 140, lost: 11 }]],
  ["many eyes, one failed", [{ technique: "vitrectomy", failed: 1, attached: 1140, lost: 1 }]],
  ["many eyes, all failed", [{ technique: "vitrectomy", failed: 30, attached: 0 }]],
  ["many eyes, wide bounds", [{ technique: "vitrectomy", failed: 21, attached: 40, lost: 90 }]],
  [
    "one eye beside many",
    [
      { technique: "scleral buckle", failed: 1, attached: 0 },
      { technique: "vitrectomy", failed: 30, attached: 170, lost: 2 },
    ],
  ],
  [
    "two groups, none failed in one",
    [
      { technique: "scleral buckle", failed: 0, attached: 24 },
      { technique: "vitrectomy", failed: 11, attached: 60, lost: 2 },
    ],
  ],
  [
    "two groups, none failed in either",
    [
      { technique: "scleral buckle", failed: 0, attached: 24, lost: 1 },
      { technique: "vitrectomy", failed: 0, attached: 60 },
    ],
  ],
  [
    "three groups",
    [
      { technique: "scleral buckle", failed: 12, attached: 80, lost: 6 },
      { technique: "vitrectomy", failed: 15, attached: 95, lost: 9 },
      { technique: "pneumatic retinopexy", failed: 4, attached: 5 },
    ],
  ],
];

const workings = [
  "failure_rate(eyes, within: 12 months)",
  "failure_rate(eyes, by: technique, within: 12 months)",
  "rate_difference(eyes, by: technique)",
  "rate_difference(eyes, by: technique, strata: macula)",
  "definitions(cases, within: 12 months)",
  "definitions(cases, by: technique, within: 12 months)",
  "attachment_curve(eyes, by: technique)",
  "curve_comparison(eyes, by: technique)",
  "curve_comparison(eyes, by: technique, at: 3 months)",
  "follow_up(eyes)",
  "failure_causes(eyes)",
  "failure_causes(eyes, by: technique)",
  "failure_incidence(eyes, by: technique)",
  "suitability(eyes)",
  "clock_hours(eyes)",
  "clock_hours(eyes, by: technique)",
  "acuity_change(eyes)",
  "acuity_change(eyes, by: technique)",
  "after_failure(cases, within: 12 months)",
  "after_failure(cases, by: technique, within: 12 months)",
  "hazard_model(eyes, age)",
  "hazard_model(eyes, technique, age)",
  "risk_model(eyes, age)",
  "risk_model(eyes, technique, age)",
  "standardised_rate(eyes, age, by: technique, replicates: 200)",
  "completeness(cases)",
  "case_flow(eyes)",
  'standard(failure_rate(eyes), at_least: 85%, source: "agreed by the unit")',
];

/** A model that the eyes cannot support is refused; what it says then is read as well. */
const refused =
  /cannot carry|is the same in all|left on which|there is only|no cell or column|so no rate can be|have no finite|cannot be compared within strata/;

describe.each(grid)("of %s", (_, groups) => {
  // Ages, breaks and acuities that vary, so that models and roses have something to go by.
  const rows = rowsOfGroups(groups).map((row, at) => ({
    ...row,
    age: 40 + ((at * 7) % 45),
    macula: at % 3 === 0 ? "on" : "off",
    break_clock_hours: at % 5 === 0 ? null : [String(1 + (at % 12))],
    acuity_before: at % 4 === 0 ? null : 0.1 * (at % 9),
    acuity_after: 0.1 * (at % 5),
  }));
  const cells = { eyes: eyesOf(rows), cases: casesValue(casesOf(rows)) };
  test.each(workings)("%s reads as it should", (working) => {
    // Of no eyes the file has no columns to split by.
    const column = /(by|strata): (technique|macula)/g;
    const asked = groups.length === 0 ? working.replaceAll(column, '$1: "all"') : working;
    const said = saidBy(asked, cells);
    for (const text of said.texts) {
      expect(text).not.toMatch(/NaN|undefined|null|Infinity|significan| {2}|\.\.|\( | ,| ;|\(\)/);
      expect(text).not.toMatch(/(?<![\d.,])1 (eyes|failures|groups|patients|days|cases|values)\b/);
      expect(text).not.toMatch(/(?<!1)(?<![\d.,])[02-9] (eye|failure|group|patient|case|value)\b/);
      expect(text).not.toMatch(/(^|\s)0 (eyes|failed|of)\b/);
      expect(text).not.toMatch(/\b(no|none) (has|is|were) \d/);
      expect(text).not.toMatch(/ \)|\bany of the 1\b|(?<![\d.,])1 of [\d,]+ were\b/);
    }
    if (said.fault) return;
    const [sentence = "", brief = ""] = said.texts;
    expect(sentence).toMatch(/^[A-Z\d].*\.$/);
    expect(brief.length).toBeLessThanOrEqual(mostBriefCharacters);
    // No sentence has percentages without a count of eyes; the standard's own level is no result.
    if (/\d%/.test(sentence.replaceAll(/85% \(agreed|95% /g, "")))
      expect(sentence).toMatch(/\d+ (of|eye|failed|case)|[Nn]one of/);
  });
});

/** Sentence and brief, or the fault in words. */
function saidBy(working: string, cells: Parameters<typeof ask>[1]) {
  try {
    const { answer, sentence } = ask(working, cells);
    const cautions = answer.cautions.map(({ text }) => text);
    const headings = answer.table.columns.map(({ label }) => label);
    const brief = sentenceText(answer.brief ?? []);
    return { fault: false, texts: [sentence, brief, ...cautions, ...headings] };
  } catch (fault) {
    const text = fault instanceof Error ? fault.message : String(fault);
    expect(text).toMatch(refused);
    return { fault: true, texts: [(text.split("\n")[0] ?? "").trim()] };
  }
}
