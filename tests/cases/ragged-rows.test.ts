import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { generateDemo } from "../../data-demo/generate.ts";
import { columnNamed } from "../../src/cases/table.ts";
import { codesOf, readText, valuesOf } from "./read-text.ts";

const headings = "case,eye,technique,age,sex,lens,status_last_seen,last_seen_date";
const whole = "1,R,SB,55,M,phakic,attached,2024-05-01".split(",");
const sound = "2,L,PPV,60,F,pseudophakic,detached,2024-06-01";

function rowWith(cells: readonly string[]): string {
  return [headings, cells.join(","), sound].join("\n");
}

describe("a row that is too short", () => {
  test("keeps its values where only the last ones are missing", () => {
    const reading = readText(rowWith(whole.slice(0, 6)));
    expect(codesOf(reading)).toEqual(["row-short"]);
    expect(valuesOf(reading, "lens")).toEqual(["phakic", "pseudophakic"]);
    expect(valuesOf(reading, "last_seen_date")?.[0]).toBeNull();
  });

  test.each([2, 3, 4, 5, 6])("with value %i lost believes only what stands before it", (lost) => {
    const reading = readText(rowWith(whole.filter((_, i) => i !== lost)));
    expect(codesOf(reading)).toEqual(["row-moved"]);
    const read = headings.split(",").map((name) => valuesOf(reading, name)?.[0]);
    expect(read.slice(0, lost)).toEqual(
      ["1", "right", "scleral buckle", 55, "male", "phakic", "attached"].slice(0, lost),
    );
    expect(read.slice(lost)).toEqual(read.slice(lost).map(() => null));
  });

  test("with its first values lost is left out", () => {
    const reading = readText(rowWith(whole.slice(1)));
    expect(codesOf(reading)).toEqual(["row-unplaced"]);
    expect(reading.lines).toEqual([3]);
    expect(reading.leftOut[0]).toMatchObject({ line: 2, code: "row-unplaced" });
  });

  test("is no reason to doubt a name that other rows have too", () => {
    const text = [headings, "1,R,Band and tap", "2,L,Band and tap,60,F,phakic,attached,2024-05-01"];
    const reading = readText(text.join("\n"));
    expect(codesOf(reading)).toEqual(["row-short", "code-unknown", "code-unknown"]);
  });
});

describe("a row that is too long", () => {
  test("keeps its values where the ones too many are the last", () => {
    const reading = readText(rowWith([...whole, "extra"]));
    expect(codesOf(reading)).toEqual(["row-long"]);
    expect(valuesOf(reading, "status_last_seen")?.[0]).toBe("attached");
  });

  test("with a value split inside believes only what stands before it", () => {
    const split = [...whole.slice(0, 4), "M", "(trans)", ...whole.slice(5)];
    const reading = readText(rowWith(split));
    expect(codesOf(reading)).toEqual(["row-moved"]);
    expect(valuesOf(reading, "age")?.[0]).toBe(55);
    expect(valuesOf(reading, "lens")?.[0]).toBeNull();
    expect(valuesOf(reading, "last_seen_date")?.[0]).toBeNull();
  });
});

test("a value lost anywhere in a wide row puts no value under another heading", () => {
  const { csv } = generateDemo(3, { faults: false, eyes: 40 });
  const lines = csv.trim().split("\n");
  const truth = readText(csv);
  const property = fc.property(fc.integer({ min: 1, max: 40 }), fc.nat(62), (row, lost) => {
    const cells = (lines[row] ?? "").split(",");
    if (cells.some((cell) => cell.includes('"'))) return;
    const short = cells.filter((_, i) => i !== lost).join(",");
    const reading = readText(lines.map((line, i) => (i === row ? short : line)).join("\n"));
    const at = reading.lines.indexOf(row + 1);
    for (const { name, values } of at < 0 ? [] : truth.cases.columns) {
      const read = columnNamed(reading.cases, name)?.values[at] ?? null;
      const isSaid = codesOf(reading).includes("row-short") && cells[lost] === cells.at(-1);
      if (read !== null && !isSaid && made.test(name) === false)
        expect(read).toEqual(values[row - 1]);
    }
  });
  fc.assert(property, { seed: 5, numRuns: 150 });
});

/** Made from others, or numbered anew where codes of patients shift. */
const made = /^(patient|operation_number)$/;
