import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { headings } from "../../data-demo/cells.ts";
import { generateDemo } from "../../data-demo/generate.ts";
import { demo } from "../../data-demo/truth.ts";
import { cellsOfLine } from "./file-rows.ts";

const { csv, faults } = generateDemo(demo.seed);
const clean = generateDemo(demo.seed, { faults: false }).csv;
const lines = csv.trimEnd().split("\n");
const lineOf = (name: string) => faults.find((fault) => fault.name === name)!.line;
const lineAt = (name: string) => lines[lineOf(name) - 1]!;
const cellAt = (name: string, field: string) =>
  cellsOfLine(lineAt(name))[headings.findIndex(([known]) => known === field)]!;

describe("the list of faults", () => {
  it("names every line that differs from the clean file, and no other", () => {
    const sound = new Set(clean.trimEnd().split("\n"));
    const odd = lines.flatMap((line, index) => (sound.has(line) ? [] : [index + 1]));
    const twice = lineOf("row twice");
    expect([...odd, twice].sort((a, b) => a - b)).toEqual(faults.map(({ line }) => line));
  });

  it("gives the case in each line", () => {
    for (const fault of faults) {
      const [first = ""] = cellsOfLine(lines[fault.line - 1]!);
      expect(first).toBe(fault.name === "totals line" ? "Total" : fault.case);
    }
  });

  it("stands in the description, line by line", () => {
    const description = readFileSync("data-demo/README.md", "utf8");
    for (const fault of faults) {
      const caseId = fault.case === "" ? "none" : fault.case;
      expect(description).toContain(`| ${fault.line} | ${caseId} | ${fault.wrong} |`);
    }
  });
});

describe("each fault", () => {
  it.each([
    ["no such day", "last_seen_date", /^\d{4}-02-31$/],
    ["age", "age", /^203$/],
    ["unknown technique", "technique", /^band \+ tap \(see note\)$/],
    ["no eye", "eye", /^$/],
    ["acuity unit", "acuity_after", /^logMAR 20$/],
    ["detached without a date", "status_last_seen", /^detached$/],
    ["detached without a date", "redetachment_date", /^$/],
    ["attached with a redetachment", "status_last_seen", /^attached$/],
    ["attached with a redetachment", "redetachment_date", /^\d{4}/],
    ["gas where unsuitable", "gas_unsuitable", /^yes$/],
    ["gas where unsuitable", "tamponade", /^C3F8$/],
    ["oil unaccounted for", "tamponade", /^silicone oil$/],
    ["oil unaccounted for", "oil_removed_date", /^$/],
    ["oil unaccounted for", "status_last_seen", /^attached$/],
    ["reoperation alone", "operation_number", /^2$/],
    ["day to come", "last_seen_date", /^203\d/],
  ])("%s: %s", (name, field, expected) => {
    expect(cellAt(name, field)).toMatch(expected);
  });

  it("dates before the operation", () => {
    for (const [name, field] of [
      ["last seen too early", "last_seen_date"],
      ["redetachment too early", "redetachment_date"],
    ] as const) {
      expect(cellAt(name, field) < cellAt(name, "operation_date")).toBe(true);
    }
  });

  it("a row twice, a row one cell short, a blank line and a line of totals", () => {
    expect(lineAt("row twice")).toBe(lines[lineOf("row twice") - 2]);
    expect(cellsOfLine(lineAt("short row")).length).toBe(headings.length - 1);
    expect(lines.at(-2)).toBe("");
    expect(lines.at(-1)).toMatch(/^Total,618,/);
  });

  it("a reoperation whose eye has no other row", () => {
    const patient = cellAt("reoperation alone", "patient");
    expect(lines.filter((line) => line.includes(patient)).length).toBe(1);
  });
});
