import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { run } from "../../src/command/run.ts";
import { dayText } from "../../src/formula/calendar.ts";
import { definitionsOf } from "../../src/notebook/notebook-document.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { writeNotebook } from "../../src/notebook/write-notebook.ts";
import { formatProblem } from "../../src/problem/format-problem.ts";
import { meetingDay, openShipped, type Session, shippedNotebooks } from "./shipped-notebooks.ts";

describe.each(shippedNotebooks)("$name", (shipped) => {
  const text = readFileSync(shipped.path, "utf8");
  let session: Session;
  beforeAll(async () => {
    session = await openShipped(shipped);
  });
  afterAll(() => session.dispose());

  test("is read without a problem and written back byte for byte", () => {
    const { notebook, problems } = readNotebook(text);
    expect(problems).toEqual([]);
    expect(writeNotebook(notebook)).toBe(text);
    expect(session.notebookText()).toBe(text);
  });

  test("every cell has its answer", () => {
    const names = definitionsOf(session.document).map(({ name }) => name);
    expect(names.length).toBeGreaterThan(3);
    expect(names.flatMap((name) => faultOf(session, name))).toEqual([]);
  });

  test("what was minuted holds; where it does not, this says what it is now", () => {
    expect(minutesThatMoved(session)).toEqual([]);
  });

  test("names are plain words, and no cell stands before what it feeds on", () => {
    const names = session.sheet.names();
    expect(names.filter((name) => !/^[a-z]+(_[a-z]+)*$/.test(name))).toEqual([]);
    const before = new Set(["cases"]);
    const early = names.flatMap((name) => {
      const missing = session.sheet.feeds(name).from.filter((fed) => !before.has(fed));
      before.add(name);
      return missing.map((fed) => `${name} stands before ${fed}`);
    });
    expect(early).toEqual([]);
  });

  test("its report is written, without a warning", async () => {
    const folder = mkdtempSync(join(tmpdir(), "holdfast-notebook-"));
    const warned: string[] = [];
    const exit = await run(["report", shipped.path, shipped.cases, "--into", folder], {
      say: () => {},
      warn: (told) => warned.push(told),
      isTerminal: false,
      today: meetingDay,
    });
    const written = readdirSync(folder);
    const page = readFileSync(join(folder, "report.html"), "utf8");
    rmSync(folder, { recursive: true });
    expect({ exit, warned }).toEqual({ exit: 0, warned: [] });
    expect(written).toEqual(expect.arrayContaining(["report.html", "results.json"]));
    const shown = page.replace(/<style>[\s\S]*?<\/style>/g, "");
    expect(shown.includes("not advice for a patient")).toBe(true);
    expect(shown.match(/\b(NaN|undefined|Infinity)\b/g)).toBeNull();
  });
});

describe.each(shippedNotebooks.filter(({ cases }) => cases.startsWith("data-demo")))(
  "$name on invented data",
  ({ path }) => {
    const prose = readFileSync(path, "utf8");

    test("says that its data are invented", () => {
      expect(prose).toMatch(/invented|made up/);
    });
  },
);

describe.each(
  shippedNotebooks.filter(({ name }) => name !== "retinopathy.md" && name !== "demo.md"),
)("$name for a meeting", ({ path }) => {
  test("carries its cautions", () => {
    const prose = readFileSync(path, "utf8").replaceAll(/\s+/g, " ");
    expect(prose).toContain("not advice for a patient");
    expect(prose).toMatch(/[Ll]ocal protocols and the judgement of licensed practitioners/);
  });
});

function faultOf(session: Session, name: string): string[] {
  const state = session.sheet.state(name);
  if (state.status === "current") return [];
  const why = state.status === "at fault" ? state.problems.map(formatProblem).join("; ") : "";
  return [`${name} ${state.status}: ${why}`];
}

/** One line for each minuted line that does not hold, with the line that would. */
function minutesThatMoved(session: Session): string[] {
  return definitionsOf(session.document).flatMap(({ name }) =>
    session.minuted(name).flatMap(({ day, text, ...check }) => {
      const was = `${name}: minuted ${dayText(day)}: ${text}`;
      if (check.verdict === "holds") return [];
      return [check.verdict === "moved" ? `${was} -> ${check.now}` : `${was} (${check.why})`];
    }),
  );
}
