import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { run } from "../../src/command/run.ts";
import { ask, casesValue, workedOut } from "../questions/ask.ts";
import { meetingDay } from "./shipped-notebooks.ts";

/*
 * The report of one person holds nothing of any one other: no code but in the list of those who can be
 * chosen, and nobody's numbers of eyes and failures side by side.
 */
const file = "data-demo/repairs.csv";
const reading = readCases(
  { name: "cases.csv", bytes: new Uint8Array(readFileSync(file)) },
  { today: meetingDay },
);
const eyes = workedOut("index_eyes(cases, from: 2023-01-01, to: 2025-12-31)", {
  cases: casesValue(reading),
});
const codes = ["A", "B", "C", "D", "E", "F", "T1", "T2", "T3"];

describe.each([
  { name: "surgeon-review", own: "E", tolerances: ["0 days", "2 weeks"] },
  { name: "trainee-benchmarking", own: "T2", tolerances: ["0 days", "2 weeks"] },
])("the report of $own by $name", ({ name, own, tolerances }) => {
  const others = codes.filter((code) => code !== own);
  let page = "";
  beforeAll(async () => {
    const into = mkdtempSync(join(tmpdir(), "holdfast-people-"));
    const quiet = { say: () => {}, warn: () => {}, isTerminal: false, today: meetingDay };
    await run(["report", `notebooks/${name}.md`, file, "--into", into], quiet);
    page = readFileSync(join(into, "report.html"), "utf8");
    rmSync(into, { recursive: true });
  }, 60_000);

  test("names no other surgeon beside a number, in no sentence, table, chart or picture", () => {
    expect(page.includes(`${own}, `)).toBe(true);
    const cells = [...page.matchAll(/<(t[dh]|text|title|desc)\b[^>]*>([^<]*)</g)].map(
      ([, , text]) => text?.trim(),
    );
    expect(cells.length).toBeGreaterThan(100);
    expect(cells.filter((text) => others.includes(text ?? ""))).toEqual([]);
    const words = page
      .replace(/<style>[\s\S]*?<\/style>/g, "")
      .replace(/choose\(\[[^\]]*\]/g, "")
      .replaceAll(/&quot;|&#34;/g, '"');
    for (const code of others) {
      const named = [
        new RegExp(`(surgeon|trainee|without|by|of) ${code}\\b(?! )`),
        new RegExp(`\\b${code}[,:;] [a-z ]*\\d`),
        new RegExp(`"${code}"`),
      ];
      expect(named.flatMap((each) => each.exec(words)?.[0] ?? [])).toEqual([]);
    }
  });

  test.each(others)("tells nobody's eyes and failures: %s", (other) => {
    for (const tolerance of tolerances) {
      const { figures } = ask(
        `my_eyes(eyes, surgeon: "${other}", within: 3 months, tolerance: ${tolerance})`,
        { eyes },
      );
      const [known, failed] = [Number(figures.eyes), Number(figures.failed)];
      expect(known).toBeGreaterThan(5);
      const rows = [...page.matchAll(/<tr\b[\s\S]*?<\/tr>/g)].map(([row]) =>
        [...row.matchAll(/<td\b[^>]*>([\s\S]*?)<\/td>/g)].map(([, cell = ""]) =>
          cell.replaceAll(/<[^>]*>/g, "").trim(),
        ),
      );
      const isTold = ([, first, second]: readonly string[]) =>
        first === String(known) && second === String(failed);
      expect(rows.filter(isTold)).toEqual([]);
    }
  });
});
