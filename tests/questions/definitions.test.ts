import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import { layChart } from "../../src/charts/chart-request.ts";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";

type Row = Readonly<Record<string, CellValue>>;

/** Eyes of patients of their own, each made by laying over a primary repair seen for a year. */
function cells(rows: readonly Row[]) {
  let patient = 0;
  const all = rows.map((over) => {
    patient += 1;
    const name = `P${String(patient).padStart(3, "0")}`;
    return primary({ patient: name, last_seen_date: 1365, status_last_seen: "attached", ...over });
  });
  return { cases: casesValue(casesOf(all)) };
}

const attached: Row = {};
const mended: Row = { redetachment_date: 1040, reoperation_date: 1050 };
const observed: Row = { redetachment_date: 1040 };
const lost: Row = { redetachment_date: 1040, status_last_seen: "detached" };
const underOil: Row = { tamponade: "silicone oil", status_last_seen: "attached under oil" };
const undecided: Row = { status_last_seen: "under observation" };

describe("definitions", () => {
  // By hand: ten eyes, all seen at a year, so that the curve at a year is the plain share.
  const ten = cells([
    ...Array.from({ length: 5 }, () => attached),
    mended,
    observed,
    lost,
    underOil,
    undecided,
  ]);
  const { figures, rows, sentence, answer, lines, cautions } = ask(
    "definitions(cases, within: 12 months)",
    ten,
  );

  test("each definition counts its own failures", () => {
    expect(rows.map((row) => row.slice(0, 4))).toEqual([
      ["redetachment", "oil followed from removal (chosen)", "10", "3"],
      ["redetachment", "oil censored at insertion", "10", "3"],
      ["redetachment", "oil counted as attached", "10", "3"],
      ["redetachment", "oil counted as failed", "10", "4"],
      ["reoperation", "oil followed from removal", "10", "1"],
      ["reoperation", "oil censored at insertion", "10", "1"],
      ["reoperation", "oil counted as attached", "10", "1"],
      ["reoperation", "oil counted as failed", "10", "2"],
      ["not attached without oil", "oil in at the last visit has failed", "10", "2"],
      ["detached at last visit", "oil followed from removal", "10", "1"],
      ["detached at last visit", "oil censored at insertion", "10", "1"],
      ["detached at last visit", "oil counted as attached", "10", "1"],
      ["detached at last visit", "oil counted as failed", "10", "2"],
    ]);
    expect(figures.ways).toBe(39);
  });

  test("a row is the failure rate of the same eyes under the same definition", () => {
    for (const failure of ["redetachment", "reoperation", "detached at last visit"]) {
      for (const oil of ["followed from removal", "counted as attached", "counted as failed"]) {
        const eyes = workedOut(
          `index_eyes(cases, failure: "${failure}", oil: "${oil}", within: 12 months)`,
          ten,
        );
        const alone = ask("failure_rate(eyes)", { eyes });
        const row = rows.find(([a, b]) => a === failure && b?.startsWith(`oil ${oil}`));
        expect(row?.slice(2, 4)).toEqual(alone.rows[0]?.slice(1, 3));
        expect(alone.rows[0]).toContain(row?.[4]);
      }
    }
  });

  test("the eyes that fail whichever way they are counted, and those that hang on it", () => {
    // No eye fails every way: the one left detached was never operated on again.
    expect(figures).toMatchObject({ failed_every_way: 0, failed_no_way: 5, failed_some_ways: 5 });
    expect(lines("never")).toEqual([[2], [3], [4], [5], [6]]);
    expect(sentence).toMatch(
      /^Of 10 eyes, 1 to 5 failed within 12 months or at the last visit, depending on the way of counting: the rate runs from 10\.0% \(reoperation, oil counted as attached, undecided eyes followed to their last visit\) to 50\.0% \(redetachment, oil counted as failed, undecided eyes as failed\)\. By the definition chosen \(redetachment, oil followed from removal\) 3 redetached or never lay flat: by the curve 33\.3% \(95% .*log-log interval 12\.2 to 71\.8%\)\. No eyes failed under every way of counting and 5 eyes under none; for 5 eyes it depends on the way of counting\.$/,
    );
  });

  test("every count is opened", () => {
    const counts = answer.table.rows.flatMap((row) => [row[2], row[3], row[6]]);
    for (const cell of counts) {
      expect(lines(cell?.pick)).toHaveLength(Number(cell?.value));
    }
  });

  test("chart and table say the same to the displayed digit, at both widths", () => {
    if (answer.chart === undefined) throw new Error("no chart");
    for (const width of [780, 390]) {
      const drawn = JSON.stringify(layChart(answer.chart, { width }).spec);
      for (const row of rows) expect(drawn).toContain(row[4]);
    }
  });

  test("the sheet's choice is marked and leads", () => {
    const other = ask(
      'definitions(cases, within: 12 months, failure: "detached at last visit", oil: "counted as failed")',
      ten,
    );
    expect(other.figures).toMatchObject({ headline: "2 of 10", failed: 2 });
    expect(other.rows.filter(([, label]) => label?.endsWith("(chosen)"))).toHaveLength(1);
    expect(other.rows.at(-1)?.[1]).toBe("oil counted as failed (chosen)");
  });

  test("carries its cautions", () => {
    expect(cautions).toEqual(["several-definitions", "small-numbers", "many-not-known"]);
  });
});

describe("definitions by group", () => {
  const two = cells([
    ...Array.from({ length: 12 }, () => ({ technique: "scleral buckle" })),
    { ...mended, technique: "scleral buckle" },
    ...Array.from({ length: 12 }, () => ({})),
    lost,
  ]);

  test("a section a group, a row a definition, the whole at the end", () => {
    const { rows, sentence, cautions } = ask(
      "definitions(cases, by: technique, within: 12 months)",
      two,
    );
    expect(rows.map(([group]) => group).filter((_, row) => row % 4 === 0)).toEqual([
      "scleral buckle",
      "vitrectomy",
      "all eyes",
    ]);
    expect(rows.map((row) => row[3])).toEqual([
      ...["1", "1", "0", "0"],
      ...["1", "0", "1", "1"],
      ...["2", "1", "1", "1"],
    ]);
    expect(sentence).toContain(
      "By technique: scleral buckle 0.0% to 7.7%; vitrectomy 0.0% to 7.7%.",
    );
    expect(cautions).toContain("techniques-chosen");
  });

  test("only the eyes asked for are counted", () => {
    const { answer } = ask('definitions(cases, where: technique = "scleral buckle")', two);
    expect(answer.used).toBe(13);
    expect(answer.leftOut).toEqual([
      { reason: "the condition does not hold", count: 13, asked: true },
    ]);
    expect(() => ask("definitions(cases, where: technique)", two)).toThrow("is not a condition");
  });
});

describe("the sentence over a grid of answers", () => {
  const sentence = (rows: readonly Row[]): string =>
    ask("definitions(cases, within: 12 months)", cells(rows)).sentence;

  test.each<[string, readonly Row[], RegExp]>([
    ["no eyes", [], /^No eyes to count\.$/],
    [
      "one eye, attached",
      [attached],
      /^Of 1 eye, none failed within 12 months or at the last visit under any of the 39 ways of counting\.$/,
    ],
    [
      "one eye, undecided",
      [undecided],
      /^Of 1 eye, none to 1 failed .* No eyes failed under every way of counting and no eyes under none; for 1 eye it depends on the way of counting\.$/,
    ],
    [
      "one eye, failed in every way",
      [{ ...lost, reoperation_date: 1050 }],
      /^Of 1 eye, the same one failed within 12 months or at the last visit under each of the 39 ways of counting\. By the definition chosen/,
    ],
    ["all failed", Array.from({ length: 30 }, () => lost), /^Of 30 eyes, none to 30 failed/],
    [
      "never seen again",
      [{ last_seen_date: null, status_last_seen: null }],
      /^Of 1 eye, none to 1 failed/,
    ],
  ])("%s", (_, rows, expected) => {
    expect(sentence(rows)).toMatch(expected);
    expect(sentence(rows)).not.toMatch(/NaN|undefined|null|significan|Infinity/);
  });
});
