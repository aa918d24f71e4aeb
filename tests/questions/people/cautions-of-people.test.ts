import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCases } from "../../../src/cases/read-cases.ts";
import { run } from "../../../src/command/run.ts";
import { monitoringQuestions } from "../../../src/questions/monitoring/monitoring-questions.ts";
import { peopleQuestions } from "../../../src/questions/people/people-questions.ts";
import { ask, casesValue, workedOut } from "../ask.ts";

/*
 * Whatever is said of people says that it is no measure of competence and that small numbers may explain
 * it; and where under 5 failed or there are under 20 eyes (chosen by the product), that they are few.
 */
const file = "data-demo/repairs.csv";
const reading = readCases({ name: "repairs.csv", bytes: new Uint8Array(readFileSync(file)) });
const cases = casesValue(reading);

/** What is asked of each question, of the eyes named; nothing of others where there are none. */
const workings: Readonly<Record<string, (eyes: string) => string>> = {
  observed_expected: (eyes) =>
    `observed_expected(${eyes}, by: surgeon, expected: 13%, source: "agreed")`,
  funnel: (eyes) => `funnel(${eyes}, by: surgeon, target: 13%, source: "agreed")`,
  enough_cases: () => "enough_cases(target: 13%, worse: 26%)",
  my_eyes: (eyes) => `my_eyes(${eyes}, surgeon: "A", expected: 13%, source: "agreed")`,
  cusum: (eyes) => `cusum(${eyes}, surgeon: "A", expected: 13%, source: "agreed")`,
  observed_minus_expected: (eyes) =>
    `observed_minus_expected(${eyes}, surgeon: "A", expected: 13%, source: "agreed")`,
  learning_curve: (eyes) =>
    `learning_curve(${eyes}, trainee: "A", acceptable: 13%, unacceptable: 26%, source: "agreed")`,
  periods: (eyes) => `periods(${eyes}, target: 13%)`,
  before_after: (eyes) => `before_after(${eyes}, on: 2024-07-01)`,
};
const all = "index_eyes(cases, within: 12 months)";
const eyesOf: Readonly<Record<string, string>> = {
  "all of them": all,
  "a few": `keep(${all}, where: surgeon = "A" and operation_date < 2023-03-01)`,
  "none known": `keep(${all}, where: surgeon = "A" and operation_date > 2025-12-01)`,
  "one person": `keep(${all}, where: surgeon = "A")`,
};
const asked = Object.keys(eyesOf).flatMap((which) =>
  Object.keys(workings).map((question) => ({ which, question })),
);
const working = (question: string, eyes: string): string => workings[question]?.(eyes) ?? "";

test("every question about people and about change is asked", () => {
  const names = [...peopleQuestions, ...monitoringQuestions].map(({ name }) => name);
  expect(Object.keys(workings).sort()).toEqual([...names].sort());
});

describe.each(Object.entries(eyesOf))("of %s", (which, kept) => {
  const eyes = workedOut(kept, { cases });

  test.each(Object.keys(workings))("%s carries its cautions", (question) => {
    const { answer, figures, cautions } = ask(working(question, "eyes"), { eyes });
    const [people, ...more] = answer.cautions.filter(({ code }) => code === "comparing-people");
    expect(more).toEqual([]);
    expect(people?.text).toMatch(/not a measure of (anyone's )?competence by itself/);
    expect(people?.text).toMatch(/small numbers may explain it/);
    expect(cautions).toContain("several-looks");
    const isFew = which === "a few" || which === "none known";
    if (isFew && question !== "enough_cases") {
      expect(answer.used).toBeLessThan(20);
      expect(cautions).toContain("small-numbers");
      expect(answer.cautions.find(({ code }) => code === "small-numbers")?.text).toMatch(
        /fewer than 5 failures or 20 eyes; read the interval/,
      );
    }
    expect(JSON.stringify([answer.sentence, figures])).not.toMatch(/NaN|undefined|Infinity/);
  });
});

describe("a report of them all", () => {
  const folder = mkdtempSync(join(tmpdir(), "holdfast-cautions-"));
  const nameOf = ({ which, question }: { which: string; question: string }) =>
    `${question}_${which.replaceAll(" ", "_")}`;
  let page = "";
  let cells: Record<string, { readonly cautions: readonly string[] }> = {};
  beforeAll(async () => {
    const lists = Object.entries(eyesOf).map(
      ([which, kept]) => `    ${which.replaceAll(" ", "_")} = ${kept}`,
    );
    const lines = asked.map(
      (each) => `    ${nameOf(each)} = ${working(each.question, each.which.replaceAll(" ", "_"))}`,
    );
    const notebook = join(folder, "people.md");
    const front = "---\nholdfast: 1\ntitle: People of an invented unit\n---\n\n";
    writeFileSync(notebook, `${front}${[...lists, ...lines].join("\n")}\n`);
    const quiet = { say: () => {}, warn: () => {}, isTerminal: false, today: 20_557 };
    const exit = await run(["report", notebook, file, "--into", folder], quiet);
    expect(exit).toBe(0);
    page = readFileSync(join(folder, "report.html"), "utf8");
    cells = JSON.parse(readFileSync(join(folder, "results.json"), "utf8")).cells;
  }, 120_000);
  afterAll(() => rmSync(folder, { recursive: true }));

  test.each(asked)("prints the cautions of $question of $which", (each) => {
    const start = page.indexOf(`id="${nameOf(each)}"`);
    expect(start).toBeGreaterThan(0);
    const section = page.slice(start, page.indexOf("</section>", start));
    const printed = /<ul class="cautions">(.*?)<\/ul>/s.exec(section)?.[1] ?? "";
    expect(printed).toMatch(/competence by itself/);
    expect(printed).toMatch(/[Ss]mall numbers/);
    expect(cells[nameOf(each)]?.cautions).toContain("comparing-people");
  });

  test("says once for the whole that it is for audit and is no advice for a patient", () => {
    expect(page).toMatch(/audit and learning/);
    expect(page).toMatch(/not advice for a patient/);
  });
});
