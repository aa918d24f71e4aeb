import { describe, expect, test } from "vitest";
import type { Answered } from "../../src/questions/answer.ts";
import { sentenceText } from "../../src/questions/answer.ts";
import { mostBriefCharacters } from "../../src/questions/answering/brief.ts";
import { workedOut } from "./ask.ts";
import { type GroupOfEyes, groupsOfEyes } from "./groups-of-eyes.ts";

/** One line for the back of a room: of the numbers of the answer, and never longer than the line. */
function briefOf(working: string, groups: readonly GroupOfEyes[]): string | undefined {
  const value = workedOut(working, { eyes: groupsOfEyes(groups) });
  if (value.kind !== "thing") throw new Error(`${working} is no answer`);
  const { brief } = (value.content as Answered).answer;
  return brief === undefined ? undefined : sentenceText(brief);
}

const two = (first: GroupOfEyes, second: GroupOfEyes): readonly GroupOfEyes[] => [
  { technique: "scleral buckle", ...first },
  { technique: "vitrectomy", ...second },
];
const many = two({ failed: 62, attached: 71 }, { failed: 37, attached: 95 });

describe("the brief", () => {
  test("of the rate: none, one, few and many, known and not", () => {
    const rate = (groups: readonly GroupOfEyes[]) => briefOf("failure_rate(eyes)", groups);
    expect(rate([])).toBe("No eyes to count.");
    // Wilson by R: prop.test(0, 1), prop.test(1, 4), prop.test(99, 265), without correction.
    expect(rate([{ failed: 0, attached: 1 }])).toBe(
      "None of 1 eye failed within 12 months; 0.0% (95% interval 0.0 to 79.3%).",
    );
    expect(rate([{ failed: 0, attached: 0, lost: 2 }])).toBe(
      "None of 2 eyes is known to have failed within 12 months.",
    );
    expect(rate([{ failed: 1, attached: 3 }])).toBe(
      "1 of 4 eyes failed within 12 months; 25.0% (95% interval 4.6 to 69.9%).",
    );
    expect(rate(many)).toBe(
      "99 of 265 eyes failed within 12 months; 37.4% (95% interval 31.8 to 43.3%).",
    );
    expect(rate([{ failed: 9, attached: 30, lost: 4 }])).toMatch(
      /^9 of 43 eyes failed within 12 months; by the curve \d+\.\d% \(95% interval /,
    );
  });

  test("of the difference, published in Heimann and others, Ophthalmology 2007;114:2142", () => {
    // Newcombe's method 10 for 62/133 less 37/132 is that of 71/133 and 95/132 with its sign turned.
    expect(briefOf('rate_difference(eyes, by: technique, against: "vitrectomy")', many)).toBe(
      "Failed within 12 months, scleral buckle less vitrectomy: 18.6 points (95% interval 6.9 to 29.5; 265 eyes).",
    );
  });

  test("of a table of counts that is long: its largest group alone", () => {
    const rows = groupsOfEyes(
      ["vitrectomy", "scleral buckle", "pneumatic retinopexy", "vitrectomy with buckle"].map(
        (technique, at) => ({ technique, failed: 3 * at, attached: 40 - at }),
      ),
    );
    const value = workedOut("count_by(eyes, technique, against: status_last_seen)", { eyes: rows });
    if (value.kind !== "thing") throw new Error("no answer");
    const { brief } = (value.content as Answered).answer;
    expect(sentenceText(brief ?? [])).toMatch(
      /^Of 172 eyes by technique and status last seen: in the largest group, vitrectomy with buckle, most often attached, 46 of 46 /,
    );
  });

  test.each([
    "failure_rate(eyes, by: technique)",
    "rate_difference(eyes, by: technique)",
    "attachment_curve(eyes, by: technique)",
    "curve_comparison(eyes, by: technique)",
    "failure_causes(eyes)",
    'standard(failure_rate(eyes), at_least: 85%, source: "agreed by the unit")',
  ])("of %s fits its line", (working) => {
    for (const groups of [
      many,
      two({ failed: 0, attached: 12 }, { failed: 0, attached: 9, lost: 3 }),
      two({ failed: 5, attached: 0 }, { failed: 4, attached: 0 }),
      two({ failed: 3, attached: 9, lost: 2 }, { failed: 1, attached: 40, lost: 6 }),
    ]) {
      const brief = briefOf(working, groups) ?? "";
      expect(brief.length, brief).toBeLessThanOrEqual(mostBriefCharacters);
      expect(brief).not.toMatch(/NaN|undefined|null|Infinity/);
    }
    const brief = briefOf(working, many) ?? "";
    expect(brief).toMatch(/\d/);
    expect(brief).toMatch(/\.$/);
  });
});
