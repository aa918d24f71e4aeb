import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { generateDemo } from "../../data-demo/generate.ts";
import { demo, drift, targets } from "../../data-demo/truth.ts";
import { failedShare } from "./failed-share.ts";
import { fileRows, rowsByEye } from "./file-rows.ts";
import { followedEyes } from "./followed-eyes.ts";

const committed = readFileSync("data-demo/repairs.csv", "utf8");

describe("the committed file", () => {
  it("is what the generator writes for its seed, byte for byte", () => {
    expect(generateDemo(demo.seed).csv === committed).toBe(true);
  });

  it("differs for another seed", () => {
    expect(generateDemo(demo.seed + 1).csv === committed).toBe(false);
  });
});

describe("the demo without its faults", () => {
  const { csv, truth, faults } = generateDemo(demo.seed, { faults: false });
  const rows = fileRows(csv);
  const eyes = followedEyes(rows);
  const shareFailed = (technique: RegExp) => {
    const chosen = eyes.filter(({ primary }) => technique.test(primary.technique!));
    return chosen.filter(({ failed }) => failed).length / chosen.length;
  };

  it("has 618 operations on 520 eyes of 488 patients", () => {
    expect(faults).toEqual([]);
    expect(rows.length).toBe(618);
    expect(rowsByEye(rows).size).toBe(520);
    expect(truth.length).toBe(520);
    expect(new Set(rows.map(({ patient }) => patient)).size).toBe(488);
  });

  it("has six surgeons and three trainees", () => {
    const codes = [...new Set(rows.map(({ surgeon }) => surgeon!))].sort();
    expect(codes).toEqual(["A", "B", "C", "D", "E", "F", "T1", "T2", "T3"]);
  });

  it("fails at about the rates declared", () => {
    const [least, most] = targets.overallFailure;
    expect(shareFailed(/./)).toBeGreaterThan(least);
    expect(shareFailed(/./)).toBeLessThan(most);
    const buckles = eyes.filter(({ primary }) => primary.technique === "scleral buckle");
    expect(failedShare(buckles, [730])[0]).toBeCloseTo(targets.buckleFailure, 2);
    expect(shareFailed(/^vitrectomy$/)).toBeGreaterThan(shareFailed(/^scleral buckle$/));
    expect(shareFailed(/^pneumatic/)).toBeGreaterThan(shareFailed(/^vitrectomy$/));
  });

  it("shows trainee T2 improving and surgeon E drifting", () => {
    const of = (code: string) => eyes.filter(({ primary }) => primary.surgeon === code);
    const share = (some: typeof eyes) => some.filter(({ failed }) => failed).length / some.length;
    const t2 = of("T2");
    const half = Math.floor(t2.length / 2);
    expect(share(t2.slice(0, half)) - share(t2.slice(-half))).toBeGreaterThan(0.1);
    const isLate = ({ primary }: (typeof eyes)[number]) => primary.operation_date! >= drift.from;
    const e = of(drift.surgeon);
    const before = share(e.filter((eye) => !isLate(eye)));
    expect(share(e.filter(isLate)) - before).toBeGreaterThan(0.1);
  });

  it("uses every technique", () => {
    expect([...new Set(rows.map(({ technique }) => technique!))].sort()).toEqual([
      "buckle revision",
      "gas injection",
      "laser or cryo alone",
      "oil removal",
      "pneumatic retinopexy",
      "scleral buckle",
      "vitrectomy",
      "vitrectomy with buckle",
    ]);
  });
});
