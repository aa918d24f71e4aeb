import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import type { Answer } from "../../src/questions/answer.ts";
import { usedText } from "../../src/report/finding.ts";
import { methodsUsed } from "../../src/report/methods.ts";
import { reportPage } from "../../src/report/report-page.ts";
import { reportOf } from "./disclosure/shared-notebook.ts";

let page = "";
beforeAll(async () => {
  page = await reportPage(
    await reportOf("notebooks/yearly-audit.md", readFileSync("data-demo/repairs.csv")),
  );
});

describe("the parts of a report", () => {
  test("every line of the contents leads to a heading that is there, in the same order", () => {
    const nav = /<nav class="contents"[\s\S]*?<\/nav>/.exec(page)?.[0] ?? "";
    const lines = [...nav.matchAll(/href="#([^"]+)">([^<]+)</g)].map(([, id, text]) => ({
      id,
      text,
    }));
    expect(lines.length).toBeGreaterThan(8);
    const headings = [...page.matchAll(/<h2 id="([^"]+)">([^<]+)</g)].map(([, id, text]) => ({
      id,
      text,
    }));
    expect(headings).toEqual(lines);
  });

  test("actions with the role that sees to them and the day they are looked at again", () => {
    const actions = /<section class="actions">[\s\S]*?<\/section>/.exec(page)?.[0] ?? "";
    expect(actions.match(/<tr><th scope="row">/g)).toHaveLength(3);
    expect(actions).toContain("clinical lead for retina");
    expect(actions).toContain("a second surgeon sees the plan of every eye");
    expect(actions.match(/2027-04-13/g)).toHaveLength(3);
  });

  test("definitions: what counted as failure, oil, undecided eyes and the window, each once", () => {
    const [definitions = ""] = page.match(/<section class="definitions">[\s\S]*?<\/section>/) ?? [];
    expect(definitions).toContain("eyes, both_years");
    expect(definitions).toContain("redetachment: the retina detached again");
    expect(definitions).toContain("detached at the last visit, after all operations");
    expect(definitions).toContain("for 6 months");
    expect(definitions).toContain("to the last visit");
    // Of a state read at the last visit no eye is followed to a time.
    expect(definitions.match(/not counted, and bounded both ways/g)).toHaveLength(1);
  });

  test("a number of the reader's own reads as on the sheet, with no zeros added", () => {
    expect(page).toContain('<span class="name">percent observed</span> 64.4</p>');
  });

  test("what was used and what was left out is told in the unit, of one in the singular", () => {
    const none = { unit: "eyes", used: 1, leftOut: [] } as unknown as Answer;
    expect(usedText(none)).toBe("1 eye used; none left out.");
    const reasons = [
      { reason: "no follow-up", count: 1030 },
      { reason: "died", count: 1 },
      { reason: "empty", count: 0 },
    ];
    expect(usedText({ ...none, used: 0, unit: "cases", leftOut: reasons })).toBe(
      "No cases used; left out: 1,030 cases (no follow-up); 1 case (died).",
    );
  });

  test("the methods of this report's answers, with sources, and no others", () => {
    const methods = /<section class="methods">[\s\S]*?<\/section>/.exec(page)?.[0] ?? "";
    for (const name of ["Kaplan–Meier curve", "Wilson interval", "Newcombe interval"]) {
      expect(methods).toContain(`<dt>${name}</dt>`);
    }
    for (const name of ["Funnel plot", "Cumulative sums", "Learning curve", "Standardised rate"]) {
      expect(methods).not.toContain(name);
    }
    const entries = [...methods.matchAll(/<dd>(.*?)<span class="source">(.+?)<\/span>/g)];
    expect(entries.length).toBe(methods.match(/<dt>/g)?.length);
  });

  test("without answers there are no methods", () => {
    expect(methodsUsed([])).toEqual([]);
    const answer = {
      question: "funnel",
      sentence: ["x"],
      table: { columns: [], rows: [] },
      cautions: [],
    };
    expect(methodsUsed([answer as unknown as Answer]).map(({ name }) => name)).toEqual([
      "Funnel plot",
    ]);
    const saying = (sentence: string) =>
      methodsUsed([{ ...answer, question: "x", sentence: [sentence] } as unknown as Answer]).map(
        ({ source }) => source,
      );
    expect(saying("c-statistic 58.5%")).toEqual(["Newcombe, Statistics in Medicine, 2006."]);
    expect(saying("Brier score 0.12")[0]).toContain("Murphy, J Appl Meteorol, 1973");
    expect(saying("Test of equal shares at that time: chi-square 3.1")).toEqual([
      "Klein, Logan, Harhoff and Andersen, Statistics in Medicine, 2007.",
    ]);
  });

  test("settings with the unit they are written in", async () => {
    const trainee = await reportPage(
      await reportOf("notebooks/trainee-benchmarking.md", readFileSync("data-demo/repairs.csv")),
    );
    expect(trainee).toContain('<th scope="row">acceptable</th><td class="text">13%</td>');
    expect(trainee).toContain('<span class="name">unacceptable</span> 26%');
  });

  test("pages are numbered and headings stay with what follows, on paper", () => {
    expect(page).toMatch(
      /@page \{[^}]*@bottom-center \{ content: counter\(page\) " of " counter\(pages\)/,
    );
    expect(page).toMatch(/h1, h2, h3, \.asks, thead \{ break-after: avoid/);
    expect(page).toMatch(/figure, tr, \.sentence, [^{]*\{\s*break-inside: avoid/);
  });
});
