import { readCases } from "../../src/cases/read-cases.ts";
import { generateDemo } from "../../data-demo/generate.ts";
import { caseFileText } from "./case-file-text.ts";
const which = process.argv[2];
const text = which === "demo" ? generateDemo(7, { faults: false, eyes: 17_000 }).csv : caseFileText(Number(which));
const bytes = new TextEncoder().encode(text);
for (let i = 0; i < 6; i++) { const a = process.cpuUsage(); const t = performance.now(); const r = readCases({ name: "x", bytes }, { today: 21_000 }); const u = process.cpuUsage(a); console.log((performance.now() - t).toFixed(0), "wall", ((u.user + u.system) / 1000).toFixed(0), "cpu", r.rowsRead, r.problems.length, r.columns.length); }
