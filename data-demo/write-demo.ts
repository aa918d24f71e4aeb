import { writeFileSync } from "node:fs";
import { generateDemo } from "./generate.ts";
import { demo } from "./truth.ts";
import { writeDepartments } from "./write-departments.ts";

/** Writes the committed files afresh. Run from the top of the project. */
const { csv, faults } = generateDemo(demo.seed);
writeFileSync("data-demo/repairs.csv", csv);
for (const { line, case: caseId, name, wrong } of faults) {
  console.log(
    [`line ${line}`, caseId === "" ? "no case" : `case ${caseId}`, name, wrong].join(" | "),
  );
}
await writeDepartments("data-demo/departments");
