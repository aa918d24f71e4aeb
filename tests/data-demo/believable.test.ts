import { describe, expect, it } from "vitest";
import { generateDemo } from "../../data-demo/generate.ts";
import { dayOf } from "../../data-demo/theatre-day.ts";
import { demo } from "../../data-demo/truth.ts";
import { type FileRow, fileRows, rowsByEye } from "./file-rows.ts";

/* What a vitreoretinal surgeon expects of such a file: common practice, no source. */
const rows = fileRows(generateDemo(demo.seed, { faults: false }).csv);
const primaries = rows.filter((row) => row.operation_number === "1");
const shareOf = (some: readonly FileRow[], has: (row: FileRow) => boolean) =>
  some.filter(has).length / some.length;
const isBuckle = ({ technique }: FileRow) => technique === "scleral buckle";

describe("the choice of technique", () => {
  it("buckles young phakic eyes with round holes or a dialysis", () => {
    const young = primaries.filter(
      ({ age, lens, break_type }) =>
        Number(age) < 45 && lens === "phakic" && /round hole|dialysis/.test(break_type!),
    );
    expect(young.length).toBeGreaterThan(40);
    expect(shareOf(young, isBuckle)).toBeGreaterThan(0.8);
  });

  it("seldom buckles pseudophakic eyes with a horseshoe tear", () => {
    const eyes = primaries.filter(
      ({ lens, break_type }) => lens === "pseudophakic" && break_type === "horseshoe tear",
    );
    expect(shareOf(eyes, isBuckle)).toBeLessThan(0.25);
    expect(shareOf(eyes, ({ technique }) => technique!.includes("vitrectomy"))).toBeGreaterThan(
      0.7,
    );
  });

  it("treats by gas alone only single breaks above, in phakic eyes", () => {
    const eyes = primaries.filter(({ technique }) => technique === "pneumatic retinopexy");
    expect(eyes.length).toBeGreaterThan(8);
    const above = ["10", "11", "12", "1", "2", ""];
    const isFit = ({ break_clock_hours, lens }: FileRow) =>
      above.includes(break_clock_hours!) && lens === "phakic";
    expect(eyes.filter((row) => !isFit(row))).toEqual([]);
  });

  it("uses oil far more after PVR C and giant tears", () => {
    const severe = (row: FileRow) => row.pvr_grade === "C" || row.break_type === "giant tear";
    const hasOil = ({ tamponade }: FileRow) => tamponade === "silicone oil";
    expect(shareOf(primaries.filter(severe), hasOil)).toBeGreaterThan(0.35);
    expect(
      shareOf(
        primaries.filter((row) => !severe(row)),
        hasOil,
      ),
    ).toBeLessThan(0.05);
  });
});

describe("acuity", () => {
  const poor = (row: FileRow) => /^(3\/60|6\/60|CF|HM|LP|NLP)$/.test(row.acuity_before!);
  const known = primaries.filter(({ acuity_before }) => acuity_before !== "");

  it("is poor before surgery with the macula off, and good with it on", () => {
    expect(
      shareOf(
        known.filter(({ macula }) => macula === "off"),
        poor,
      ),
    ).toBeGreaterThan(0.8);
    expect(
      shareOf(
        known.filter(({ macula }) => macula === "on"),
        poor,
      ),
    ).toBeLessThan(0.1);
  });

  it("mostly comes back to 6/24 or better where an eye with the macula off is attached", () => {
    const attached = primaries.filter(
      ({ macula, status_last_seen, acuity_after }) =>
        macula === "off" && status_last_seen === "attached" && acuity_after !== "",
    );
    const good = ({ acuity_after }: FileRow) => /^6\/(5|6|7\.5|9|12|18|24)$/.test(acuity_after!);
    expect(shareOf(attached, good)).toBeGreaterThan(0.75);
  });
});

describe("what came in the end", () => {
  it("is attached in some nineteen of twenty eyes", () => {
    const last = [...rowsByEye(rows).values()].map((operations) => operations.at(-1)!);
    const decided = last.filter(({ status_last_seen }) => status_last_seen !== "");
    const detached = shareOf(decided, ({ status_last_seen }) => status_last_seen === "detached");
    expect(detached).toBeGreaterThan(0.015);
    expect(detached).toBeLessThan(0.07);
    const statuses = new Set(decided.map(({ status_last_seen }) => status_last_seen));
    expect([...statuses].sort()).toEqual([
      "attached",
      "attached under oil",
      "detached",
      "under observation",
      "unknown",
    ]);
  });

  it("includes deaths, eyes that never attached and eyes lost within two months", () => {
    expect(rows.filter(({ death_date }) => death_date !== "").length).toBeGreaterThan(1);
    expect(rows.filter(({ never_attached }) => never_attached === "yes").length).toBeGreaterThan(1);
    const lostEarly = rows.filter(
      ({ status_last_seen, operation_date, last_seen_date }) =>
        status_last_seen === "attached" &&
        dayOf(last_seen_date!) - dayOf(operation_date!) < 61 &&
        operation_date! < "2025-12-01",
    );
    expect(lostEarly.length).toBeGreaterThan(10);
  });

  it("leaves blanks where departments leave them", () => {
    const blank = (field: string) => shareOf(primaries, (row) => row[field] === "");
    expect(blank("axial_length")).toBeGreaterThan(0.35);
    expect(blank("smoker")).toBeGreaterThan(0.04);
    expect(blank("pvr_grade")).toBeGreaterThan(0.01);
    expect(blank("operation_date")).toBe(0);
    expect(blank("technique")).toBe(0);
  });
});
