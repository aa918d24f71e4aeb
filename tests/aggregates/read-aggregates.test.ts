import Ajv from "ajv";
import { describe, expect, test } from "vitest";
import schema from "../../src/aggregates/aggregates.schema.json" with { type: "json" };
import { countBounds, keyOfGroup } from "../../src/aggregates/count-bounds.ts";
import { readAggregates } from "../../src/aggregates/read-aggregates.ts";

const validate = new Ajv().compile(schema);

function file(change: (made: ReturnType<typeof good>) => void = () => {}): string {
  const made = good();
  change(made);
  return JSON.stringify(made);
}

// biome-ignore lint/suspicious/noExplicitAny: tests break it in every way
function good(): any {
  return {
    ...{ holdfast_aggregates: 1, made_by: "Holdfast 0", unit: "North unit (invented)" },
    definition: {
      ...{ failure: "redetachment", oil: "followed from removal", undecided: "bounds" },
      ...{ window: "12 months", days: 365, eyes: "all" },
    },
    smallest_count: 5,
    groups: [
      {
        by: [],
        ...{ eyes: 100, failed: 20, held: 70, unknown: 10 },
        times: {
          bands: [
            { from: 0, to: 30, failed: 12, ended: 5, died: 0 },
            { from: 31, to: 365, failed: 8, ended: 5, died: 0 },
          ],
          ...{ reached: 70, deaths: "apart" },
        },
        causes: { names: ["new break", "PVR"], bands: [{ from: 0, to: 365, failed: [11, 9] }] },
      },
      {
        by: [{ column: "technique", value: "vitrectomy" }],
        ...{ eyes: 60, failed: { withheld: true, most: 9 }, held: { withheld: true }, unknown: 5 },
      },
      {
        by: [{ column: "technique", value: "scleral buckle" }],
        ...{ eyes: 40, failed: { withheld: true }, held: { withheld: true }, unknown: 5 },
      },
    ],
  };
}

describe("a file of aggregates", () => {
  test("is read as it stands, by the reader and by the published schema", () => {
    expect(readAggregates("a.json", file()).problems).toEqual([]);
    expect(validate(good())).toBe(true);
  });

  test.each<[string, (made: ReturnType<typeof good>) => void, string, RegExp]>([
    ["a negative count", (made) => (made.groups[0].eyes = -1), "groups.0.eyes", /whole number/],
    ["half an eye", (made) => (made.groups[0].failed = 19.5), "groups.0.failed", /whole number/],
    ["a text for a count", (made) => (made.groups[0].held = "70"), "groups.0.held", /whole number/],
    ["a huge count", (made) => (made.groups[0].eyes = 1e9), "groups.0.eyes", /whole number/],
    ["a key too many", (made) => (made.patients = []), "", /only holdfast_aggregates/],
    ["no unit", (made) => delete made.unit, "", /a value for unit/],
    [
      "a definition of its own",
      (made) => (made.definition.failure = "bad luck"),
      "definition.failure",
      /one of/,
    ],
    [
      "a withheld count that is not",
      (made) => (made.groups[1].failed.withheld = false),
      "groups.1.failed",
      /withheld/,
    ],
    [
      "too many groups",
      (made) => (made.groups = new Array(501).fill(made.groups[1])),
      "groups",
      /at most 500/,
    ],
    ["a long name", (made) => (made.unit = "x".repeat(201)), "unit", /1 to 200/],
  ])("with %s is refused by both, with the place", (_, change, place, expected) => {
    const { problems } = readAggregates("a.json", file(change));
    expect(problems[0]).toMatchObject({
      severity: "stop",
      place: { file: "a.json", ...(place === "" ? {} : { field: place }) },
    });
    expect(problems[0]?.expected).toMatch(expected);
    expect(validate(JSON.parse(file(change)))).toBe(false);
  });

  test.each<[string, (made: ReturnType<typeof good>) => void, RegExp]>([
    ["counts that do not add up", (made) => (made.groups[0].unknown = 11), /101 eyes: failed/],
    [
      "a small count",
      (made) => {
        made.groups[0] = { by: [], ...{ eyes: 93, failed: 20, held: 70, unknown: 3 } };
      },
      /no count from 1 to 4/,
    ],
    ["bands that overlap", (made) => (made.groups[0].times.bands[1].from = 30), /in order/],
    [
      "a band after the window",
      (made) => (made.groups[0].times.bands[1].to = 400),
      /up to day 365/,
    ],
    ["times of other eyes", (made) => (made.groups[0].times.reached = 71), /times of 100 eyes/],
    [
      "causes of other failures",
      (made) => (made.groups[0].causes.bands[0].failed = [11, 10]),
      /add up to the failures/,
    ],
    ["a group twice", (made) => made.groups.push(made.groups[2]), /each group once/],
    ["no group of all eyes", (made) => made.groups.shift(), /all eyes first/],
    ["groups that are more than all eyes", (made) => (made.groups[1].eyes = 70), /add up/],
  ])("with %s is refused", (_, change, expected) => {
    const { problems } = readAggregates("a.json", file(change));
    expect(problems.map((problem) => problem.expected).join("; ")).toMatch(expected);
  });

  test("with a prototype's keys is refused and leaves no trace", () => {
    const text = file().replace('"unit"', '"__proto__":{"least":1},"unit"');
    expect(readAggregates("a.json", text).problems[0]?.message).toContain("__proto__");
    const constructed = file().replace('"days"', '"constructor":1,"days"');
    expect(readAggregates("a.json", constructed).problems[0]?.message).toContain("constructor");
    expect(({} as { least?: number }).least).toBeUndefined();
  });

  test.each([
    ["", "aggregates-unreadable", /not JSON/],
    ["case,eye\n1,right", "aggregates-unreadable", /not JSON/],
    ["[]", "aggregates-unreadable", /not a file of aggregates/],
    ["null", "aggregates-unreadable", /not a file of aggregates/],
    ['{"holdfast_aggregates":2}', "aggregates-newer", /newer version/],
    [" ".repeat(5_000_001), "aggregates-unreadable", /too long/],
  ])("%#: another file is refused", (text, code, message) => {
    const { problems } = readAggregates("a.json", text);
    expect(problems).toHaveLength(1);
    expect(problems[0]?.code).toBe(code);
    expect(problems[0]?.message).toMatch(message);
  });
});

describe("bounds on withheld counts", () => {
  test("follow from the sums, worked out by hand", () => {
    const read = readAggregates("a.json", file());
    if (!("aggregates" in read)) throw new Error("it cannot be read");
    const bounds = countBounds(read.aggregates);
    const of = (value: string) => bounds.get(keyOfGroup({ by: [{ column: "technique", value }] }));
    // 20 failed: 1 to 9 after vitrectomy, so 11 to 19 after buckle; of 55 and 35 known the rest held.
    expect(of("vitrectomy")?.failed).toEqual({ least: 1, most: 9 });
    expect(of("scleral buckle")?.failed).toEqual({ least: 11, most: 19 });
    expect(of("vitrectomy")?.held).toEqual({ least: 46, most: 54 });
    expect(of("scleral buckle")?.held).toEqual({ least: 16, most: 24 });
  });
});
