import Ajv from "ajv";
import { describe, expect, test } from "vitest";
import schema from "../../../src/aggregates/aggregates.schema.json" with { type: "json" };
import { readAggregates } from "../../../src/aggregates/read-aggregates.ts";
import { aggregatesOfSession } from "../../../src/report/pooling/aggregates-of-session.ts";
import { aggregatesOf, inventedEyes } from "../../questions/pooling/fictional-departments.ts";
import { sessionOf } from "./session-of.ts";

const validate = new Ajv({ allErrors: true }).compile(schema);
const anyDay = Array.from({ length: 365 }, (_, day) => day);

describe("every file that is written", () => {
  test.each([
    [1, 0, 5],
    [2, 3, 5],
    [3, 40, 5],
    [4, 300, 5],
    [5, 300, 2],
    [6, 900, 20],
  ])(
    "meets the published schema and is read back (seed %i, %i eyes, threshold %i)",
    (seed, eyes, threshold) => {
      const file = aggregatesOf(
        "D1",
        inventedEyes(seed, { eyes, grid: anyDay, risk: 0.2 }),
        threshold,
      );
      validate(file);
      expect(validate.errors).toBeNull();
      const read = readAggregates("d1.json", JSON.stringify(file));
      expect(read.problems).toEqual([]);
      expect("aggregates" in read && read.aggregates).toEqual(JSON.parse(JSON.stringify(file)));
    },
  );

  test("of the invented cases as well, with technique, risk and what more is asked for", async () => {
    const session = await sessionOf("demo");
    const asked = { version: "0", threshold: 5, by: ["macula"] };
    const made = aggregatesOfSession(session, asked);
    if ("problems" in made) throw new Error("there are problems");
    validate(made.aggregates);
    expect(validate.errors).toBeNull();
    expect(readAggregates("d.json", JSON.stringify(made.aggregates)).problems).toEqual([]);
    const columns = made.aggregates.groups.map(({ by }) => by.map(({ column }) => column).join());
    expect([...new Set(columns)]).toEqual([
      "",
      "technique",
      "risk_stratum",
      "technique,risk_stratum",
      "macula",
    ]);
    expect(made.aggregates.period).toContain("2023 Q1");
    session.dispose();
  });

  test("not grouped by people or free text", async () => {
    const session = await sessionOf("demo");
    for (const column of ["surgeon", "case", "no_such_column"]) {
      const made = aggregatesOfSession(session, { version: "0", threshold: 5, by: [column] });
      expect("problems" in made && made.problems.map(({ code }) => code)).toEqual([
        "no-grouping-to-hand-over",
      ]);
    }
    const none = aggregatesOfSession(session, {
      version: "0",
      threshold: 5,
      by: [],
      eyes: "window",
    });
    expect("problems" in none && none.problems[0]?.code).toBe("no-eyes-to-hand-over");
    session.dispose();
  });
});
