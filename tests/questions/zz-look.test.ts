import { readFileSync } from "node:fs";
import { test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
test("look", () => {
  const reading = readCases({ name: "repairs.csv", bytes: new Uint8Array(readFileSync("data-demo/repairs.csv")) });
  const cells = { eyes: workedOut("index_eyes(cases)", { cases: casesValue(reading) }) };
  const cut = { eyes: workedOut("index_eyes(cases, within: 12 months)", { cases: casesValue(reading) }) };
  for (const [w, c] of [
    ['rate_difference(eyes, by: technique, groups: ["scleral buckle", "vitrectomy"], within: 12 months)', cells],
    ['rate_difference(eyes, by: technique, within: 12 months)', cells],
    ['rate_difference(eyes, by: technique, groups: ["scleral buckle", "vitrectomy"], within: 12 months, strata: risk_stratum)', cells],
    ['rate_difference(eyes, by: risk_stratum, within: 12 months, ordered: true)', cells],
    ['rate_difference(eyes, by: surgeon, within: 12 months)', cells],
    ['follow_up(eyes, by: technique, until: 2025-12-31)', cells],
    ['follow_up(eyes)', cut],
    ['failure_incidence(eyes, within: 12 months)', cells],
    ['failure_incidence(eyes, by: technique, within: 12 months)', cells],
    ['curve_comparison(eyes, by: technique)', cut],
    ['curve_comparison(eyes, by: risk_stratum, ordered: true)', cut],
    ['hazard_model(eyes, age, technique, pvr_grade)', cut],
    ['hazard_model(eyes, decade: age / 10, pvr_grade = "C", macula)', cut],
    ['risk_model(eyes, decade: age / 10, technique, pvr_grade, within: 12 months)', cells],
    ['standardised_rate(eyes, by: technique, age, pvr_grade, groups: ["scleral buckle", "vitrectomy"], within: 12 months)', cells],
  ] as const) {
    const t = performance.now();
    try {
    const r = ask(w, c);
    console.log(w, Math.round(performance.now()-t)+"ms\n"+r.sentence+"\n"+r.answer.table.columns.map(x=>x.label).join(" | ")+"\n"+r.rows.map(x=>x.join(" | ")).join("\n")+"\n"+r.answer.cautions.map(x=>"* "+x.text).join("\n")+"\n"+JSON.stringify(r.answer.leftOut)+" used "+r.answer.used);
    } catch (e) { console.log(w, String(e)); }
  }
});
