import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { Answered, FigureRecord } from "../../src/questions/answer.ts";
import { meetingDay, openShipped, type Session, shippedNotebooks } from "./shipped-notebooks.ts";

/** Does what the notebook tells its reader to do, step by step. */
let session: Session;
beforeEach(async () => {
  const shipped = shippedNotebooks.find(({ name }) => name === "first-steps.md");
  if (shipped === undefined) throw new Error("the first steps are not shipped");
  session = await openShipped(shipped);
});
afterEach(() => session.dispose());

function answered(cell: string): Answered {
  const state = session.sheet.state(cell);
  if (state.status !== "current" || state.value.kind !== "thing") {
    throw new Error(`${cell} has no answer: ${JSON.stringify(state)}`);
  }
  return state.value.content as Answered;
}

const figures = (cell: string): FigureRecord => answered(cell).answer.figures;
const number = (cell: string, figure: string): number => figures(cell)[figure] as number;

describe("the first steps, done as they are written", () => {
  test("2. the second cell follows the first", async () => {
    session.setWorking("cases_a_year", "208");
    await session.sheet.settled();
    expect(session.sheet.state("cases_a_week")).toMatchObject({ value: { number: 4 } });
  });

  test("3. at 12 months more have failed, fewer are known and the interval is wider", async () => {
    const width = () =>
      number("how_often", "headline_upper") - number("how_often", "headline_lower");
    const before = { failed: number("how_often", "failed"), known: number("how_often", "eyes") };
    const widthBefore = width();
    session.setSetting("window", 2);
    await session.sheet.settled();
    expect(number("how_often", "failed")).toBeGreaterThan(before.failed);
    expect(number("how_often", "eyes")).toBeLessThan(before.known);
    expect(width()).toBeGreaterThan(widthBefore);
  });

  test.each([
    ["macula", ["on", "split", "off"]],
    ["age < 50", ["yes", "no"]],
  ])("4. split by %s", async (by, expected) => {
    session.setWorking("by_technique", `failure_rate(eyes, by: ${by}, tolerance: 2 weeks)`);
    await session.sheet.settled();
    const groups = figures("by_technique").groups as readonly { readonly group: string }[];
    expect(groups.map(({ group }) => group).slice(0, expected.length)).toEqual(expected);
  });

  test("4. an unknown word is named with its neighbour, and the other cells go on", async () => {
    session.setWorking("by_technique", "failure_rat(eyes)");
    await session.sheet.settled();
    const state = session.sheet.state("by_technique");
    if (state.status !== "at fault") throw new Error(`it is ${state.status}`);
    expect(JSON.stringify(state.problems)).toContain("failure_rate");
    const others = session.sheet.names().filter((name) => name !== "by_technique");
    expect(others.filter((name) => session.sheet.state(name).status !== "current")).toEqual([]);
  });

  test("5. the share attached is what the curve leaves", () => {
    const attached = Math.round(1000 * (1 - number("how_often", "curve"))) / 10;
    expect(session.sheet.state("percent_attached")).toMatchObject({ value: { number: attached } });
  });

  test("6. a question asked anew gets its answer and can be taken back", async () => {
    const text = session.notebookText();
    const problems = session.addCell({
      after: "why",
      name: "my_question",
      working: "attachment_curve(eyes, by: lens)",
      row: "new",
    });
    await session.sheet.settled();
    expect(problems).toEqual([]);
    expect(number("my_question", "failed")).toBe(number("how_often", "failed"));
    session.undo();
    expect(session.notebookText()).toBe(text);
  });

  test("7. the number of failed eyes opens into as many eyes, each with its lines", () => {
    const { answer, picks, record } = answered("how_often");
    const part = answer.sentence.find((each) => typeof each !== "string" && each.role === "failed");
    const key = typeof part === "object" ? part.pick : undefined;
    const pick = picks.get(key ?? "");
    const failed = number("how_often", "failed");
    expect(pick?.rows.length).toBe(failed);
    const { rows } = record.describe(pick?.rows ?? []);
    expect(
      rows.filter(({ lines }) => lines.length > 0 && lines.every((line) => line > 1)),
    ).toHaveLength(failed);
  });

  test("9. a minuted line holds, and says so no more once the window is another", async () => {
    session.addMinuted("when", { day: meetingDay, text: "100.0%" });
    session.setSetting("window", 0);
    await session.sheet.settled();
    const verdicts = ["how_often", "by_technique", "when"].flatMap((cell) =>
      session.minuted(cell).map(({ verdict }) => verdict),
    );
    expect(new Set(verdicts)).toEqual(new Set(["moved"]));
    session.undo();
    await session.sheet.settled();
    expect(session.minuted("how_often").map(({ verdict }) => verdict)).toEqual(["holds"]);
  });
});
