import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import type { Thing } from "../../src/formula/value.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import type { EyeRecord } from "../../src/outcomes/eye-record.ts";
import { ask, casesValue, workedOut } from "./ask.ts";

/*
 * What a question could not use it says, with the reason: the eyes used and those left out are
 * together all eyes that there are.
 */
const { notebook } = readNotebook(readFileSync("notebooks/demo.md", "utf8"));
const reading = readCases(
  { name: "repairs.csv", bytes: new Uint8Array(readFileSync("data-demo/repairs.csv")) },
  { matching: notebook.front.matching },
);
const cases = casesValue(reading);
const eyes = workedOut("index_eyes(cases, within: 12 months)", { cases });
const record = (eyes as Thing).content as EyeRecord;
const all = record.time.length + record.leftOut.length;

describe("used and left out are all eyes", () => {
  it.each([
    "failure_rate(eyes, by: technique)",
    "attachment_curve(eyes, by: technique)",
    'curve_comparison(eyes, by: technique, groups: ["vitrectomy", "scleral buckle"])',
    "failure_incidence(eyes)",
    "follow_up(eyes)",
    "failure_causes(eyes)",
    "rate_difference(eyes, by: sex)",
    "risk_model(eyes, age, macula, axial_length)",
    "hazard_model(eyes, age, macula, axial_length)",
    "standardised_rate(eyes, age, macula, by: sex)",
    "suitability(eyes)",
    "clock_hours(eyes)",
    "acuity_change(eyes)",
    "observed_expected(eyes, by: surgeon)",
    "funnel(eyes, by: surgeon)",
  ])("%s", (working) => {
    const { answer } = ask(working, { eyes, cases });
    const leftOut = answer.leftOut.reduce((sum, { count }) => sum + count, 0);
    expect(answer.used).toBeGreaterThan(0);
    expect(answer.used + leftOut).toBe(all);
  });
});
