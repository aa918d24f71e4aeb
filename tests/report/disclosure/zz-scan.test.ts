import { appendFileSync } from "node:fs";
import { test } from "vitest";
import { generateDemo } from "../../../data-demo/generate.ts";
import { sharedReport } from "../../../src/report/sharing/shared-report.ts";
import { sharedResultsJson } from "../../../src/report/sharing/shared-results.ts";
import type { Behind } from "./attack.ts";
import { reportOf } from "./shared-notebook.ts";
import { had, toldOf } from "./told-of-report.ts";
const threshold = 5;
test("scan", async () => {
  for (let seed = 1; seed <= 30; seed++) for (const notebook of ["demo","yearly-audit","quarterly-meeting","buckle-failures","surgeon-review"]) {
    const bytes = new TextEncoder().encode(generateDemo(seed).csv);
    const lines = new TextDecoder().decode(bytes).split(/\r?\n/);
    const behind: Behind = (rows) => new Set([...rows].map((line) => lines[line - 1]?.split(",")[1])).size;
    const start = performance.now();
    try {
      const input = await reportOf(`notebooks/${notebook}.md`, bytes);
      const shared = sharedReport(input, { threshold, seed: 7 });
      const json = JSON.parse(sharedResultsJson(shared)).cells;
      const system = toldOf(input, shared, json);
      const found = had(system, threshold, behind);
      appendFileSync("/tmp/w/scan.txt", `${seed} ${notebook} shown ${system.told.filter((t) => t.isShown).length} of ${system.told.length} ${Math.round(performance.now()-start)}ms ${JSON.stringify(found)}\n`);
    } catch (error) { appendFileSync("/tmp/w/scan.txt", `${seed} ${notebook} ERROR ${String(error)}\n`); }
  }
}, 3_000_000);
