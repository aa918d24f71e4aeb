import { writeFileSync } from "node:fs";
import { generateDemo } from "./generate.ts";
import { demo } from "./truth.ts";

/** Writes the committed file afresh. Run from the top of the project. */
const { csv, faults } = generateDemo(demo.seed);
writeFileSync("data-demo/repairs.csv", csv);
for (const { line, case: caseId, name, wrong } of faults) {
  console.log(
    [`line ${line}`, caseId === "" ? "no case" : `case ${caseId}`, name, wrong].join(" | "),
  );
}
