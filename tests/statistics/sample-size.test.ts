import { describe, expect, it } from "vitest";
import { casesAgainstTarget, casesPerGroup, exactPower } from "../../src/statistics/sample-size.ts";
import { expectClose } from "./close-to.ts";
import { type Reference, readReference } from "./reference-data.ts";

const reference = readReference("sample-size");

describe("cases one unit needs", () => {
  it("agree with a search over every number of cases in R", () => {
    for (const { cases, critical, reached, ...design } of reference.cases as Reference[]) {
      const needed = casesAgainstTarget(design)!;
      expect([needed.cases, needed.criticalCount]).toEqual([cases, critical]);
      expectClose(needed.power, reached);
    }
  });

  it("by hand: 3 of 3 at one half is rejected with chance 1/8, noticed at 0.9 with 0.729", () => {
    const { criticalCount, power } = exactPower(3, { target: 0.5, other: 0.9, alpha: 0.125 });
    expect(criticalCount).toBe(3);
    expectClose(power, 0.729);
    // with 2 cases even both failing has chance 1/4: nothing can be rejected
    expectClose(exactPower(2, { target: 0.5, other: 0.9, alpha: 0.125 }).power, 0);
  });

  it("rise as the rates come nearer, and are null beyond all reach", () => {
    const cases = [0.3, 0.2, 0.15].map(
      (other) => casesAgainstTarget({ target: 0.1, other })!.cases,
    );
    expect(cases).toEqual([...cases].sort((a, b) => a - b));
    expect(casesAgainstTarget({ target: 0.1, other: 0.1001 })).toBeNull();
  });
});

describe("cases each of two groups needs", () => {
  it("agree with R's power.prop.test, and with Fleiss's correction", () => {
    for (const { plain, corrected, ...design } of reference.groups as Reference[]) {
      expect(casesPerGroup(design)).toEqual({ plain, corrected });
    }
  });

  it("refuse equal or impossible rates", () => {
    expect(() => casesPerGroup({ target: 0.1, other: 0.1 })).toThrow(/expected two rates/);
    expect(() => casesAgainstTarget({ target: 0, other: 0.1 })).toThrow(/target is 0/);
    const rates = { target: 0.1, other: 0.3, alpha: 0.05 };
    expect(() => exactPower(Infinity, rates)).toThrow("cases is Infinity; expected a whole number");
    expect(() => exactPower(20, { ...rates, alpha: Number.NaN })).toThrow("alpha is NaN");
    expect(() => casesAgainstTarget({ target: 0.1, other: 0.2, power: 1 })).toThrow(/power is 1/);
  });
});
