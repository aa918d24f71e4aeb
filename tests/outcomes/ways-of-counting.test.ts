import { expect, test } from "vitest";
import { countEveryWay, waysOfCounting } from "../../src/outcomes/ways-of-counting.ts";
import { casesOf, primary } from "./cases-of.ts";

test("three definitions by four treatments of oil by three of the undecided, and one by three", () => {
  const told = waysOfCounting.map((way) => Object.values(way).join("/"));
  expect(new Set(told).size).toBe(3 * 4 * 3 + 3);
  expect(waysOfCounting.filter(({ oil }) => oil === null)).toHaveLength(3);
});

test("the same eyes in the same order, each way by its own rules", () => {
  const reading = casesOf([
    primary({ last_seen_date: 1300, status_last_seen: "attached" }),
    primary({
      patient: "P2",
      redetachment_date: 1030,
      last_seen_date: 1300,
      status_last_seen: "attached",
    }),
    primary({ patient: "P3", technique: "scleral buckle" }),
  ]);
  const counted = countEveryWay(
    reading,
    { failure: "redetachment", oil: "followed from removal", undecided: "bounds" },
    { to: 1000 },
  );
  for (const way of waysOfCounting) {
    const record = counted.under(way);
    expect(record.lines).toEqual([[2], [3], [4]]);
    expect(record.rules).toMatchObject({ failure: way.failure, undecided: way.undecided });
    const failed = record.event[1] === 1;
    expect(failed).toBe(way.failure === "redetachment");
  }
  expect(counted.chosen.event[1]).toBe(1);
});
