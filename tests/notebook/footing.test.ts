import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Footing, readFooting, writeFooting } from "../../src/notebook/footing.ts";
import { readMinuted, writeMinuted } from "../../src/notebook/minuted.ts";

const digest = fc.stringMatching(/^[0-9a-f]{6}$/);
const footings: fc.Arbitrary<Footing> = fc.record({
  rows: fc.record({
    count: fc.nat(),
    lastDay: fc.option(fc.integer({ min: 0, max: 40_000 })),
    digest,
  }),
  corrections: fc.nat({ max: 5000 }),
  workings: fc
    .uniqueArray(fc.tuple(fc.stringMatching(/^[a-z_ä]{1,12}$/), digest), {
      minLength: 1,
      selector: ([name]) => name,
    })
    .map((pairs) => new Map(pairs)),
  version: fc.stringMatching(/^\d\.\d{1,2}\.\d$/),
});

describe("what a minuted number rests on", () => {
  test("is read as it was written, alone and behind what was told", () => {
    fc.assert(
      fc.property(footings, (footing) => {
        expect(readFooting(writeFooting(footing))).toEqual(footing);
        const reading = readMinuted(writeMinuted(20_543, "60 of 442", footing), 7);
        expect(reading).toEqual({
          ok: true,
          minuted: { day: 20_543, text: "60 of 442", restsOn: footing, line: 7 },
        });
      }),
    );
  });

  test.each([
    "",
    "540 rows",
    "540 rows to 2026-02-27, 3f9a; version 0.3.0",
    "540 rows to 2026-02-31, 3f9a; eyes 55aa01; version 0.3.0",
    "540 rows to 2026-02-27, 3f9a; eyes 55aa01",
    "540 rows to 2026-02-27, 3f9a; eyes; version 0.3.0",
  ])("%j is none, and stays part of what was told", (text) => {
    expect(readFooting(text)).toBeNull();
    const reading = readMinuted(`minuted 2026-03-14: 60 of 442 [${text}]`, 0);
    expect(reading.ok && reading.minuted).toMatchObject({ text: `60 of 442 [${text}]` });
  });
});
