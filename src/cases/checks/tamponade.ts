import type { CasesToCheck, Finding } from "./check.ts";

const gases: ReadonlySet<unknown> = new Set(["SF6", "C2F6", "C3F8"]);
const gasTechniques: ReadonlySet<unknown> = new Set(["pneumatic retinopexy", "gas injection"]);

/** A query: oil went in, is not there at the last visit, and nothing says that it came out. */
export function oilUnaccounted(cases: CasesToCheck): readonly Finding[] {
  const withLater = cases.rowsWithLater();
  return cases.eachRow((row) => {
    if (cases.value("tamponade", row) !== "silicone oil" || withLater.has(row)) return undefined;
    const status = cases.value("status_last_seen", row);
    if (status !== "attached" && status !== "under observation") return undefined;
    if (cases.value("final_status", row) === "attached under oil") return undefined;
    if (cases.day("oil_removed_date", row) !== null) return undefined;
    if (cases.day("reoperation_date", row) !== null) return undefined;
    return {
      row,
      field: "oil_removed_date",
      code: "oil-unaccounted",
      message: "silicone oil was left in the eye, and is neither removed nor in at the last visit.",
      found: `silicone oil; ${status}`,
      expected: "the day it was removed, or attached under oil",
      remedy: "add the date, or correct the status",
    };
  });
}

/** A query: gas in an eye for which gas was ruled out. */
export function gasWhereUnsuitable(cases: CasesToCheck): readonly Finding[] {
  if (!cases.has("gas_unsuitable")) return [];
  return cases.eachRow((row) => {
    const [tamponade, technique] = [cases.value("tamponade", row), cases.value("technique", row)];
    if (cases.value("gas_unsuitable", row) !== true) return undefined;
    const isGas = gases.has(tamponade);
    if (!isGas && !gasTechniques.has(technique)) return undefined;
    return {
      row,
      field: isGas ? "tamponade" : "technique",
      code: "gas-where-unsuitable",
      message: "gas was used where it had been called unsuitable.",
      found: String(isGas ? tamponade : technique),
      expected: "another tamponade, or gas_unsuitable no",
      remedy: "check both against the record",
    };
  });
}
