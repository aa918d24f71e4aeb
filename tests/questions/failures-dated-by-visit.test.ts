import { describe, expect, test } from "vitest";
import { ask } from "./ask.ts";
import { eyesOf, type Row, rowsOfGroups } from "./groups-of-eyes.ts";

/* A file that records only how the eye was at the last visit puts every failure on that day. */
const cautionOf = (more: readonly Row[], within: string) =>
  ask("failure_rate(eyes)", {
    eyes: eyesOf([...rowsOfGroups([{ failed: 1, attached: 3 }]), ...more], `within: ${within}`),
  });

const found = (over: Row = {}): Row => ({
  ...rowsOfGroups([{ failed: 0, attached: 1 }])[0],
  patient: "X1",
  status_last_seen: "detached",
  last_seen_date: 1283,
  ...over,
});

describe("an eye found detached with no day of redetachment", () => {
  test("is said to have failed perhaps earlier, also where the visit came after the window", () => {
    const late = cautionOf([found()], "6 months");
    expect(late.figures.failed).toBe(1);
    const text =
      "1 eye was found detached at a visit with no day of redetachment recorded: the failure is put on the day of that visit, and may have come earlier, within the window too.";
    expect(late.answer.cautions.map((each) => each.text)).toContain(text);
    const counted = cautionOf([found()], "12 months");
    expect(counted.figures.failed).toBe(2);
    expect(counted.answer.cautions.map((each) => each.text)).toContain(text);
  });

  test.each<[string, Row]>([
    ["a recorded day", { redetachment_date: 1100 }],
    ["an eye that never lay flat", { never_attached: true }],
    ["an eye still attached", { status_last_seen: "attached" }],
  ])("%s says nothing of the kind", (_, over) => {
    expect(cautionOf([found(over)], "12 months").cautions).not.toContain("failures-dated-by-visit");
  });
});
