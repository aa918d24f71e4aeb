import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Ajv from "ajv";
import { beforeAll, describe, expect, test, vi } from "vitest";
import { chromiumPath } from "../../src/command/print-pdf.ts";
import { run } from "../../src/command/run.ts";

const folder = mkdtempSync(join(tmpdir(), "holdfast-"));
const path = (name: string) => join(folder, name);
const units = ["north", "south", "east"];

async function command(...given: string[]) {
  const said: string[] = [];
  const warned: string[] = [];
  const exit = await run(given, {
    say: (text) => said.push(text),
    warn: (text) => warned.push(text),
    isTerminal: false,
    today: 20_543,
  });
  return { exit, said: said.join(""), warned: warned.join("") };
}

const own = `---
holdfast: 1
title: For pooling
period: operated from 2023-01-01 to 2025-12-31
unit: a unit
---

    eyes = index_eyes(cases, failure: "redetachment", within: 6 months)
`;

const pooled = `---
holdfast: 1
title: Three invented units
---

    together = pooled_rate(departments, by: "technique")
    within   = pooled_difference(departments, by: "technique", first: "vitrectomy", second: "scleral buckle")
    when     = pooled_curve(departments)
    why      = pooled_incidence(departments)
    apart    = pooled_funnel(departments)
`;

/** The invented cases split by patient among three fictional units. */
beforeAll(async () => {
  const [heading = "", ...rows] = readFileSync("data-demo/repairs.csv", "utf8")
    .trimEnd()
    .split("\n");
  const at = heading.split(",").findIndex((name) => /patient/i.test(name));
  const unitOf = (row: string) =>
    Number((row.split(",")[at] ?? "").replace(/\D/g, "").slice(-2)) % units.length;
  for (const [number, unit] of units.entries()) {
    const own = rows.filter((row) => unitOf(row) === number);
    writeFileSync(path(`${unit}.csv`), `${[heading, ...own].join("\n")}\n`);
  }
  writeFileSync(path("own.md"), own);
  writeFileSync(path("pooled.md"), pooled);
  for (const unit of units) {
    const { exit, warned } = await command(
      ...["aggregates", path("own.md"), path(`${unit}.csv`), "--into", path(`${unit}.json`)],
      ...["--unit", unit, "--by", "macula", "--quiet"],
    );
    expect({ exit, warned }).toEqual({ exit: 0, warned: "" });
  }
}, 60_000);

const files = () => units.map((unit) => path(`${unit}.json`));

describe("holdfast aggregates", () => {
  test("writes what the schema that it prints allows", async () => {
    const { said, exit } = await command("aggregates", "--schema");
    expect(exit).toBe(0);
    const validate = new Ajv().compile(JSON.parse(said));
    for (const file of files()) {
      validate(JSON.parse(readFileSync(file, "utf8")));
      expect(validate.errors).toBeNull();
    }
  });

  test("says what it wrote, and that it should be read", async () => {
    const { said, exit } = await command(
      ...["aggregates", path("own.md"), path("north.csv"), "--into", path("again.json")],
      ...["--unit", "north", "--by", "macula"],
    );
    expect(exit).toBe(0);
    expect(said).toContain("no count from 1 to 4");
    expect(said).toContain("Read it before you send it");
    expect(readFileSync(path("again.json"), "utf8")).toBe(readFileSync(path("north.json"), "utf8"));
  });

  test.each([
    [["aggregates", "a.md"], "aggregates needs a notebook and a file of cases"],
    [["aggregates", "a.md", "b.csv"], "aggregates needs a file to write: --into FILE"],
    [["aggregates", "a.md", "b.csv", "--into", "c", "--threshold", "1"], "--threshold 1 is not"],
    [["report", "a.md", "--aggregates", "--into", "x"], "a file of aggregates of each department"],
    [["report", "a.md", "b.json", "--aggregates", "--share", "--into", "x"], "does not go with"],
    [["report", "a.md", "b.json", "--aggregates", "--paper", "A5", "--into", "x"], "--paper A5 is"],
  ])("%j is refused in words", async (given, why) => {
    const { exit, warned } = await command(...given);
    expect(exit).toBe(2);
    expect(warned).toContain(why);
  });

  test("refuses eyes without a window", async () => {
    writeFileSync(path("endless.md"), own.replace(", within: 6 months", ""));
    const { exit, warned } = await command(
      ...["aggregates", path("endless.md"), path("north.csv"), "--into", path("no.json")],
    );
    expect(exit).toBe(2);
    expect(warned).toContain("within: 12 months");
    expect(readdirSync(folder)).not.toContain("no.json");
  });
});

describe("holdfast report --aggregates", () => {
  test("answers every question, from the files alone", async () => {
    const into = path("report");
    const { exit, warned, said } = await command(
      ...["report", path("pooled.md"), ...files(), "--aggregates", "--into", into],
    );
    expect({ exit, warned }).toEqual({ exit: 0, warned: "" });
    expect(said).toContain("3 departments pooled");
    const { cells, aggregates } = JSON.parse(readFileSync(join(into, "results.json"), "utf8"));
    expect(aggregates.map(({ name }: { name: string }) => name)).toEqual(
      units.map((unit) => `${unit}.json`),
    );
    const all = files().map((file) => JSON.parse(readFileSync(file, "utf8")).groups[0]);
    const failed = all.reduce((sum, { failed }) => sum + failed, 0);
    const held = all.reduce((sum, { held }) => sum + held, 0);
    expect(cells.together.figures.rate).toBe(failed / (failed + held));
    expect(cells.apart.cautions).toContain("no-case-mix");
    const page = readFileSync(join(into, "report.html"), "utf8");
    expect(page).toContain("The aggregates of 3 departments, and no case of a patient");
    expect(page.replace(/<style>[\s\S]*?<\/style>/, "")).not.toMatch(/NaN|undefined/);
  });

  test.skipIf(chromiumPath() === undefined)(
    "prints it to a PDF, and says so",
    async () => {
      const into = path("printed");
      const { exit, warned, said } = await command(
        ...["report", path("pooled.md"), ...files(), "--aggregates", "--into", into],
        ...["--pdf", "--paper", "Letter"],
      );
      expect({ exit, warned }).toEqual({ exit: 0, warned: "" });
      expect(said).toContain("report.pdf");
      const pdf = readFileSync(join(into, "report.pdf"), "latin1");
      expect(pdf.startsWith("%PDF-")).toBe(true);
      // Letter is 8.5 by 11 inches, in points of a 72nd of an inch.
      const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)];
      expect(boxes.length).toBeGreaterThan(2);
      for (const [, across, up] of boxes) {
        expect([Math.round(Number(across)), Math.round(Number(up))]).toEqual([612, 792]);
      }
    },
    60_000,
  );

  test("without Chromium is written, and says what a PDF needs", async () => {
    vi.stubEnv("CHROMIUM", "/nowhere/chromium");
    const into = path("unprinted");
    const { exit, warned } = await command(
      ...["report", path("pooled.md"), ...files(), "--aggregates", "--into", into, "--pdf"],
    );
    vi.unstubAllEnvs();
    expect(exit).toBe(1);
    expect(warned).toContain("--pdf needs Chromium");
    expect(readdirSync(into)).toContain("report.html");
    expect(readdirSync(into)).not.toContain("report.pdf");
  });

  test("a notebook that asks of departments waits for them where it is given cases", async () => {
    const { exit, warned } = await command(
      ...["report", path("pooled.md"), path("north.csv"), "--into", path("of-cases"), "--quiet"],
    );
    expect(exit).toBe(1);
    expect(warned).toContain("together: waits for departments");
  });

  test("refuses another definition, the same unit twice, and a file that was touched", async () => {
    const text = readFileSync(path("south.json"), "utf8");
    writeFileSync(path("other.json"), text.replace('"redetachment"', '"reoperation"'));
    writeFileSync(path("touched.json"), text.replace(/"eyes": \d+/, '"eyes": 9999'));
    const pool = (second: string) =>
      command(
        ...["report", path("pooled.md"), path("north.json"), path(second), "--aggregates"],
        ...["--into", path("not")],
      );
    const other = await pool("other.json");
    expect(other.exit).toBe(2);
    expect(other.warned).toContain("what counts as a failure");
    expect(other.warned).toContain("north: redetachment; south: reoperation");
    expect((await pool("north.json")).warned).toContain("of the same department");
    const touched = await pool("touched.json");
    expect(touched.exit).toBe(2);
    expect(touched.warned).toContain("touched.json");
    expect(readdirSync(folder)).not.toContain("not");
  });
});
