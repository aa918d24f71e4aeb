import { describe, expect, test } from "vitest";
import { sentenceText } from "../../src/questions/answer.ts";
import { mostBriefCharacters } from "../../src/questions/answering/brief.ts";
import { ask } from "./ask.ts";
import { type GroupOfEyes, groupsOfEyes } from "./groups-of-eyes.ts";

/** Sentences over none, one, few and many eyes and failures; one group and several. */
const grid: readonly (readonly [name: string, groups: readonly GroupOfEyes[]])[] = [
  ["no eyes", []],
  ["one eye, none failed", [{ technique: "vitrectomy", failed: 0, attached: 1 }]],
  ["one eye, failed", [{ technique: "vitrectomy", failed: 1, attached: 0 }]],
  ["few eyes", [{ technique: "vitrectomy", failed: 2, attached: 4, lost: 1 }]],
  ["many eyes, none failed", [{ technique: "vitrectomy", failed: 0, attached: 140, lost: 11 }]],
  ["many eyes, wide bounds", [{ technique: "vitrectomy", failed: 21, attached: 40, lost: 90 }]],
  [
    "one eye beside many",
    [
      { technique: "scleral buckle", failed: 1, attached: 0 },
      { technique: "vitrectomy", failed: 30, attached: 170, lost: 2 },
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
  "attachment_curve(eyes, by: technique)",
  "follow_up(eyes)",
  "failure_causes(eyes)",
  "failure_incidence(eyes, by: technique)",
  "suitability(eyes)",
  "clock_hours(eyes)",
  "acuity_change(eyes)",
  'standard(failure_rate(eyes), at_least: 85%, source: "agreed by the unit")',
];

describe.each(grid)("of %s", (_, groups) => {
  const cells = { eyes: groupsOfEyes(groups) };
  test.each(workings)("%s reads as it should", (working) => {
    // Of no eyes the file has no columns to split by.
    const asked = groups.length === 0 ? working.replace(", by: technique", "") : working;
    const { answer, sentence } = ask(asked, cells);
    const brief = sentenceText(answer.brief ?? []);
    for (const text of [sentence, brief]) {
      expect(text).not.toMatch(/NaN|undefined|null|Infinity|significan| {2}|\.\.|\( /);
      expect(text).not.toMatch(/(?<![\d.,])1 (eyes|failures|groups|patients|days|cases)\b/);
      expect(text).not.toMatch(/(?<!1)(?<![\d.,])[02-9] (eye|failure|group|patient|case)\b/);
      expect(text).not.toMatch(/(^|\s)0 (eyes|failed|of)\b/);
    }
    expect(sentence).toMatch(/^[A-Z\d].*\.$/);
    expect(brief.length).toBeLessThanOrEqual(mostBriefCharacters);
    // No sentence has percentages without a count of eyes; the standard's own level is no result.
    if (/\d%/.test(sentence.replaceAll("85% (agreed", "")))
      expect(sentence).toMatch(/\d+ (of|eye|failed)|[Nn]one of/);
  });
});
