import { readFileSync } from "node:fs";

/** Twelve hospitals, deaths of operations on infants' hearts (the BUGS example "Surgical"). */
export const hospitals = readFileSync("tests/references/data/surgical12.csv", "utf8")
  .trim()
  .split(/\r?\n/)
  .slice(1)
  .map((line) => line.split(","))
  .map(([surgeon = "", n = "0", deaths = "0"]) => ({
    surgeon,
    failed: Number(deaths),
    attached: Number(n) - Number(deaths),
  }));
