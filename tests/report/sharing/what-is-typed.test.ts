import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { reportFiles } from "../../../src/report/files/report-files.ts";
import { textOf, unzipFiles } from "../../../src/report/files/zip-files.ts";
import type { ReportInput } from "../../../src/report/report-input.ts";
import { coarseDates } from "../../../src/report/sharing/coarse-dates.ts";
import { recodedPeople } from "../../../src/report/sharing/recoded-people.ts";
import { sharedReport } from "../../../src/report/sharing/shared-report.ts";
import { tellsCountsInProse } from "../../../src/report/sharing/tells-counts.ts";
import { withoutIdLikes, withoutIds } from "../../../src/report/sharing/without-ids.ts";
import { slidesOf } from "../../../src/report/slides/slides-of.ts";
import { answeredOf, reportOfText } from "../disclosure/shared-notebook.ts";

describe("what a notebook's writer typed, in a report to share", () => {
  const notebook = `---
holdfast: 1
title: 3 of 211 eyes, SM0001 among them
unit: Unit with 3/211 failures
period: 12 Mar 2025 to 31.12.2025
made_by: surgeon e
computed:
  noted: if notes is known then "noted" else "plain"
  who: if surgeon = "E" then "Eve Example" else "others"
---

## Case 0001 and SM0002

SM0003 was seen on March 5, 2025, again on 5 Mar 2025 by surgeon E.

Three failures were discussed (n = 3).

    eyes      = index_eyes(cases, within: 6 months)
    eyes_of_e = index_eyes(cases, within: 6 months, where: surgeon = "E")

    whole   = failure_rate(eyes, by: technique)
    named   = failure_rate(eyes, by: if surgeon = "E" then "Eve Example" else "others")
    by_who  = failure_rate(eyes, by: who)
    by_note = failure_rate(eyes, by: noted)
    rate_e  = failure_rate(eyes_of_e, by: technique)
    pick    = choose(["SM0004", "E"], now: "SM0004")
    agreed  = standard(failure_rate(eyes), at_least: 85%, source: "the unit", action: "look at SM0005 again, as E asks",
      role: "surgeon E", re_audit: 2027-01-31)
`;
  let shared: ReportInput;
  let texts: string;

  beforeAll(async () => {
    const input = await reportOfText(notebook, readFileSync("data-demo/repairs.csv"));
    shared = sharedReport(input, { threshold: 5, seed: 7 });
    const files = await reportFiles(shared);
    const slides = unzipFiles(await slidesOf(shared, async () => undefined));
    const pages = files.map(({ name, content }) => `${name}\n${content}`);
    const parts = slides.map(({ content }) => textOf(content));
    texts = [...pages, ...parts].join("\n").replace(/<style>[\s\S]*?<\/style>/g, "");
  });

  test.each([
    ["an id of a patient", /SM000\d/],
    ["an id of a case", /Case 0001/],
    ["a day", /31\.12\.2025|Mar(?:ch)? (?:5, )?2025/],
    ["a count", /3 of 211|3\/211|n = 3|Three failures/],
    ["a code of a person in a name", /rate_e|eyes_of_e|surgeon [eE]\b/],
    ["a name given to a person", /Eve Example/],
  ])("holds not %s, in no page, table, slide, note or name of a file", (_, telling) => {
    expect(texts).toContain("How often did it fail?");
    expect(texts).not.toMatch(telling);
  });

  test("holds what tells nothing, and the answers that may be shown", () => {
    expect(shared.title).toBe("Audit of retinal detachment repair");
    expect(shared.period).toBe("2025 Q1 to 2025 Q4");
    expect(shared.madeBy).toMatch(/^surgeon person \d+$/);
    expect(shared.actions[0]?.action).toMatch(/^look at \(withheld\) again, as person \d+ asks$/);
    const shown = shared.cells.filter((cell) => answeredOf(cell) !== undefined);
    expect(shown.map(({ name }) => name)).toEqual(["whole", "cell_7", "agreed"]);
  });
});

test.each([
  ["seen 30/11/2025 and 30.11.2025", "seen 2025 Q4 and 2025 Q4"],
  ["either 04/05/2025 or 03/04/2025", "either 2025 Q2 or 2025"],
  ["on the 30th of Nov. 2025, on 1st Sept 2025", "on the 2025 Q4, on 2025 Q3"],
  ["on November 30, 2025 and Mar 1st 2024", "on 2025 Q4 and 2024 Q1"],
  ["may 2024 be a year, 12/2025 none", "2024 Q2 be a year, 12/2025 none"],
  ["45/99/2025 is no day", "45/99/2025 is no day"],
])("days in %j become quarters", (text, coarse) => expect(coarseDates(text)).toBe(coarse));

test.each([
  "3/211 failed",
  "n=3",
  "Three failures were discussed",
  "one of 40",
  "two out of the 17",
  "twelve eyes",
])("%j tells a count", (text) => expect(tellsCountsInProse(text)).toBe(true));

test.each([
  "from 6/60 to 6/12, or 20/200",
  "seen 31/03/2025",
  "one of the questions",
  "two eyes of a patient are not two patients",
  "within 3 months",
])("%j tells none", (text) => expect(tellsCountsInProse(text)).toBe(false));

test("ids are taken out as words: not short numbers, not years, not parts of words", () => {
  const without = withoutIds(["SM0001", "0042", "17", "2025", "RD-7/25", "abc"]);
  expect(without("SM0001, 0042, RD-7/25.")).toBe("(withheld), (withheld), (withheld).");
  const kept = "17 eyes in 2025, SM00011, abc";
  expect(without(kept)).toBe(kept);
  expect(withoutIds([])("SM0001")).toBe("SM0001");
});

test("words that look like the id of a patient are taken out of prose, and nothing else", () => {
  expect(withoutIdLikes("SM0001, H123 and 1234567")).toBe("(withheld), (withheld) and (withheld)");
  const kept = "2025, 2025Q4, 2025-11-30, C3F8, PVR C12, oil of 5000 cs, 15,000 values";
  expect(withoutIdLikes(kept)).toBe(kept);
});

test("a code in small letters is a person after the word for one, and in the name of a cell", () => {
  const people = recodedPeople(["E", "T2", "A"], 3);
  expect(people.inText("surgeon e and Trainee t2.")).toBe(
    `surgeon ${people.asLabel("E")} and Trainee ${people.asLabel("T2")}.`,
  );
  expect(people.inText("surgeon a moment later, e alone")).toBe("surgeon a moment later, e alone");
  expect(["rate_e", "rate_t2", "what_a_rate", "rate_A"].map(people.isNamedIn)).toEqual([
    ...[true, true, false, true],
  ]);
});
