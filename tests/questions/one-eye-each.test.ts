import { describe, expect, test } from "vitest";
import type { Thing, Value } from "../../src/formula/value.ts";
import type { EyeRecord } from "../../src/outcomes/eye-record.ts";
import { ask } from "./ask.ts";
import { groupsOfEyes } from "./groups-of-eyes.ts";

/** The same eyes, each of a patient of its own, or of patients whom the record does not name. */
const eyes = groupsOfEyes([
  { technique: "scleral buckle", failed: 12, attached: 41, lost: 3 },
  { technique: "vitrectomy", failed: 7, attached: 52, lost: 6 },
]) as Thing;

function withPatients(patientOf: (eye: number) => string | null): Value {
  const record = eyes.content as EyeRecord;
  return {
    ...eyes,
    content: { ...record, patient: record.patient.map((_, eye) => patientOf(eye)) },
  };
}

describe("with no patient giving two eyes", () => {
  test.each([
    "failure_rate(eyes, by: technique, within: 12 months)",
    "rate_difference(eyes, by: technique)",
    "attachment_curve(eyes, by: technique)",
    "curve_comparison(eyes, by: technique)",
    "failure_causes(eyes)",
    "failure_incidence(eyes, by: technique)",
    "follow_up(eyes)",
    "hazard_model(eyes, technique)",
    "risk_model(eyes, technique)",
  ])("%s has the very numbers of eyes that are independent", (working) => {
    const own = ask(working, { eyes: withPatients((eye) => `patient ${eye}`) });
    const unnamed = ask(working, { eyes: withPatients(() => null) });
    expect(own.figures).toEqual(unnamed.figures);
    expect(own.sentence).toBe(unnamed.sentence);
    expect(own.rows).toEqual(unnamed.rows);
    expect(own.sentence).not.toContain("patient-clustered");
  });

  test("and two eyes of one patient do change the interval", () => {
    const both = ask("failure_rate(eyes, within: 12 months)", {
      eyes: withPatients((eye) => `patient ${Math.floor(eye / 2)}`),
    });
    expect(both.sentence).toContain("patient-clustered");
  });
});
