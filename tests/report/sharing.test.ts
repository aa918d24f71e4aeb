import { describe, expect, test } from "vitest";
import type { AttachmentCurves } from "../../src/charts/attachment-curves.ts";
import type { Answer } from "../../src/questions/answer.ts";
import { coarseDates } from "../../src/report/sharing/coarse-dates.ts";
import { curveCounts } from "../../src/report/sharing/curve-counts.ts";
import { recodedPeople } from "../../src/report/sharing/recoded-people.ts";
import { sharedChart } from "../../src/report/sharing/shared-chart.ts";
import { tellsCountsInProse, tellsOtherCounts } from "../../src/report/sharing/tells-counts.ts";

describe("people's codes", () => {
  const people = recodedPeople(["A", "E", "T2", "7", "Dr. X"], 3);

  test("the same person alike everywhere, each another number", () => {
    const numbers = ["A", "E", "T2", "7", "Dr. X"].map((code) => people.asLabel(code));
    expect([...numbers].sort()).toEqual([1, 2, 3, 4, 5].map((n) => `person ${n}`));
    expect(people.inText("T2 and E, then T2.")).toBe(
      `${numbers[2]} and ${numbers[1]}, then ${numbers[2]}.`,
    );
    expect(people.inText("by Dr. X")).toBe(`by ${numbers[4]}`);
  });

  test("an article is no person, a count is no person, a part of a word is no person", () => {
    const text = "A comparison of 7 eyes at T20, VITAL";
    expect(people.inText(text)).toBe(text);
    expect(people.inText("surgeon A, 3 failed")).toBe(`surgeon ${people.asLabel("A")}, 3 failed`);
    expect([people.isNamedIn("eyes_of_T2"), people.isNamedIn("eyes_of_T20")]).toEqual([
      true,
      false,
    ]);
  });

  test("another seed gives another order, the same seed the same", () => {
    const codes = Array.from({ length: 12 }, (_, at) => `S${at}`);
    const order = (seed: number) => codes.map((code) => recodedPeople(codes, seed).asLabel(code));
    expect(order(1)).toEqual(order(1));
    expect(order(1)).not.toEqual(order(2));
  });
});

test.each([
  ["operated from 2023-01-01 to 2025-12-31", "operated from 2023 Q1 to 2025 Q4"],
  ["most is missing for 2024-11", "most is missing for 2024 Q4"],
  ["the file of 31 March 2026, agreed in January 2025", "the file of 2026 Q1, agreed in 2025 Q1"],
  ["2024-13 is no month", "2024-13 is no month"],
])("days in %j become quarters", (text, coarse) => expect(coarseDates(text)).toBe(coarse));

test("a text that tells other counts is told from one that does not", () => {
  const open = new Set([517, 68]);
  expect(tellsOtherCounts("Of 517 eyes, 68 failed: 14.7% (95% interval 11.7 to 18.3%)", open)).toBe(
    false,
  );
  expect(tellsOtherCounts("at 6 months, 2025 Q1, with none of 0", open)).toBe(false);
  expect(tellsOtherCounts("Of 517 eyes, 3 failed", open)).toBe(true);
  expect(tellsCountsInProse("Minuted: 24 of 211")).toBe(true);
  expect(tellsCountsInProse("There were 3 eyes")).toBe(true);
  expect(tellsCountsInProse("followed for 6 months, by 95% intervals")).toBe(false);
});

describe("a curve in a shared report", () => {
  const days = [0, 30, 61, 91];
  const rows = (count: number) => new Set(Array.from({ length: count }, (_, row) => row));
  const step = (time: number, survival: number) => ({
    ...{ time, survival, lower: null, upper: null, atRisk: 90, pick: `step ${time}` },
  });
  const group = (label: string) => ({
    ...{ label, total: 100, end: 100, censored: [{ time: 40, survival: 0.9, count: 1 }] },
    steps: [step(10, 0.95), step(45, 0.9), step(80, 0.8)],
  });
  const curves: AttachmentCurves = {
    groups: [group("a"), group("b")],
    until: 100,
    atRiskTimes: days,
    atRisk: [
      [100, 90, 80, 60],
      [100, 90, 80, 60],
    ],
    atRiskPicks: [days.map((day) => `a@${day}`), days.map((day) => `b@${day}`)],
    timeLabel: "months",
  };
  const answer = {
    question: "attachment_curve",
    table: { columns: [{ label: "group", kind: "text" }], rows: [] },
    chart: { draw: "attachment curves", curves },
  } as unknown as Answer;
  const rowsOf = () => rows(30);
  const keys = curveCounts("when", answer, rowsOf).map(({ key }) => key);

  test("the eyes lost before a day are protected, and never shown", () => {
    const all = { ...group("a"), pick: "a" };
    const one = { ...curves, groups: [all], atRiskPicks: [days.map((day) => `a@${day}`)] };
    const lone = { ...answer, chart: { draw: "attachment curves", curves: one } } as Answer;
    const of: Record<string, Set<number>> = { a: rows(100), "a@91": new Set([...rows(60)]) };
    const counts = curveCounts("when", lone, (pick) => of[pick] ?? new Set());
    const lost = counts.find(({ key }) => key === "when/lost before 91: a");
    expect(lost?.rows.size).toBe(40);
    expect(lost?.isOnlyProtected).toBe(true);
    expect(counts.filter(({ isOnlyProtected }) => isOnlyProtected).length).toBe(days.length);
  });

  const drawn = (open: readonly string[]) => {
    const chart = sharedChart(
      {
        ...{ name: "when", answer, natures: [], rowsOf, threshold: 5, patientOf: new Map() },
        ...{ open: new Set(open), label: (text: string) => text },
      },
      { table: answer.table, whole: new Set() },
    );
    return chart?.draw === "attachment curves" ? chart.curves : undefined;
  };

  test("is read on the days of the table alone", () => {
    const shown = drawn(keys);
    expect(shown?.groups.map(({ label }) => label)).toEqual(["a", "b"]);
    expect(shown?.groups[0]?.steps.map(({ time, survival }) => [time, survival])).toEqual([
      [30, 0.95],
      [61, 0.9],
      [91, 0.8],
    ]);
    expect(shown?.groups[0]?.censored).toEqual([]);
    expect(JSON.stringify(shown)).not.toMatch(/"pick"|step \d/);
  });

  test("leaves out a group of which a count may not be shown, and all where days are too few", () => {
    const withoutOne = keys.filter((key) => key !== "when/failed by 61: b");
    expect(drawn(withoutOne)?.groups.map(({ label }) => label)).toEqual(["a"]);
    expect(drawn(keys.filter((key) => key !== "when/a@61"))).toBeUndefined();
    expect(drawn([])).toBeUndefined();
  });
});
