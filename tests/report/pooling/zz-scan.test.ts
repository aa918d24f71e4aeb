import { appendFileSync } from "node:fs";
import { test } from "vitest";
import { generateDemo } from "../../../data-demo/generate.ts";
import { sharedReport } from "../../../src/report/sharing/shared-report.ts";
import { sharedResultsJson } from "../../../src/report/sharing/shared-results.ts";
import { patientsBy } from "../disclosure/patients-by.ts";
import { reportOf } from "../disclosure/shared-notebook.ts";
import { had, toldOf } from "../disclosure/told-of-report.ts";
test("scan", async () => {
  for (let seed = 1; seed <= 60; seed++) for (const notebook of ["demo","quarterly-meeting","surgeon-review","first-steps"]) for (const [eyes, threshold] of [[520, 3], [520, 10], [300, 5]] as const) {
    try {
    const bytes = new TextEncoder().encode(generateDemo(seed, { eyes, faults: eyes > 300 }).csv);
    const behind = patientsBy(bytes);
    const start = performance.now();
      const input = await reportOf(`notebooks/${notebook}.md`, bytes);
      const shared = sharedReport(input, { threshold, seed: 7 });
      const json = JSON.parse(sharedResultsJson(shared)).cells;
      const system = toldOf(input, shared, json);
      const found = had(system, threshold, behind);
      appendFileSync("/tmp/w/scan3.txt", `${seed} ${notebook} ${eyes} ${threshold} shown ${system.told.filter((t) => t.isShown).length} of ${system.told.length} ${Math.round(performance.now()-start)}ms ${JSON.stringify(found)}\n`);
    } catch (error) { appendFileSync("/tmp/w/scan3.txt", `${seed} ${notebook} ${eyes} ${threshold} ERROR ${String(error)}\n`); }
  }
}, 3_000_000);
