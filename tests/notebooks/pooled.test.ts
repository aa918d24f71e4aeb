import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { departments, writeDepartments } from "../../data-demo/write-departments.ts";
import { run } from "../../src/command/run.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { writeNotebook } from "../../src/notebook/write-notebook.ts";
import { meetingDay } from "./shipped-notebooks.ts";

const committed = "data-demo/departments";
const files = departments.map(({ file }) => join(committed, file));

describe("the notebook of several departments", () => {
  test("is read without a problem and written back byte for byte", () => {
    const text = readFileSync("notebooks/pooled.md", "utf8");
    const { notebook, problems } = readNotebook(text);
    expect(problems).toEqual([]);
    expect(writeNotebook(notebook)).toBe(text);
  });

  test("answers from the files alone; what was minuted holds", async () => {
    const into = mkdtempSync(join(tmpdir(), "holdfast-pooled-"));
    const warned: string[] = [];
    const given = ["report", "notebooks/pooled.md", ...files, "--aggregates", "--into", into];
    const exit = await run(given, {
      say: () => {},
      warn: (text) => warned.push(text),
      isTerminal: false,
      today: meetingDay,
    });
    expect({ exit, warned: warned.join("") }).toEqual({ exit: 0, warned: "" });
    const { cells } = JSON.parse(readFileSync(join(into, "results.json"), "utf8"));
    const counted = files.map((file) => JSON.parse(readFileSync(file, "utf8")).groups[0]);
    const sum = (of: "eyes" | "failed") => counted.reduce((total, each) => total + each[of], 0);
    expect(cells.together.figures.headline).toBe(
      `${sum("failed")} of ${sum("eyes").toLocaleString("en-GB")}`,
    );
    // A department that cannot be compared is left out with its eyes, not counted among those used.
    expect(cells.differ.cautions).toContain("departments-left-out");
    expect(cells.differ.left_out).toEqual([
      { reason: "of departments that cannot be compared", count: 189 },
    ]);
    expect(cells.differ.used).toBe(954 - 189);
  });

  test("a minuted figure that moved is told of", async () => {
    const into = mkdtempSync(join(tmpdir(), "holdfast-pooled-"));
    const notebook = join(into, "moved.md");
    const text = readFileSync("notebooks/pooled.md", "utf8");
    const moved = text.replace("140 of 1,070", "141 of 1,070").replace("1.38", "1.39");
    writeFileSync(notebook, moved);
    const warned: string[] = [];
    await run(["report", notebook, ...files, "--aggregates", "--into", join(into, "out")], {
      say: () => {},
      warn: (told) => warned.push(told),
      isTerminal: false,
      today: meetingDay,
    });
    expect(warned.join("")).toMatch(/^together: Minuted 2026-04-14: 141 of 1,070\. It is 140/m);
    expect(warned.join("")).toMatch(/^differ: Minuted 2026-04-14: 1\.39/m);
  });

  test("the files are what the units' own notebook sends, byte for byte", async () => {
    const into = mkdtempSync(join(tmpdir(), "holdfast-departments-"));
    await writeDepartments(into);
    expect(readdirSync(committed).sort()).toEqual(readdirSync(into).sort());
    for (const { file } of departments) {
      expect(readFileSync(join(committed, file), "utf8")).toBe(
        readFileSync(join(into, file), "utf8"),
      );
    }
  }, 60_000);
});
