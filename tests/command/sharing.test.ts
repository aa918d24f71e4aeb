import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { run } from "../../src/command/run.ts";

async function report(into: string, ...more: string[]) {
  let warned = "";
  const exit = await run(
    ["report", "notebooks/demo.md", "data-demo/repairs.csv", "--into", into, "--quiet", ...more],
    { say: () => {}, warn: (text) => (warned += text), isTerminal: false, today: 20_543 },
  );
  return { exit, warned };
}

const folder = (): string => mkdtempSync(join(tmpdir(), "holdfast-"));

describe("--share", () => {
  test("writes no list of problems, and no small count in any file", async () => {
    const into = folder();
    expect(await report(into, "--share")).toEqual({ exit: 0, warned: "" });
    const files = readdirSync(into);
    expect(files).not.toContain("problems.csv");
    const { cells, smallest_count } = JSON.parse(readFileSync(join(into, "results.json"), "utf8"));
    expect(smallest_count).toBe(5);
    expect(cells.how_often.rows[0].slice(0, 3)).toEqual(["scleral buckle", 225, 28]);
    // 4 of 15 failed after pneumatic retinopexy.
    expect(cells.how_often.rows[3].slice(0, 3)).toEqual(["pneumatic retinopexy", 15, null]);
    expect(readFileSync(join(into, "how_often.csv"), "utf8")).toMatch(
      /^pneumatic retinopexy,15,,,,,,,,,,,$/m,
    );
    expect(readFileSync(join(into, "report.html"), "utf8")).toContain(
      "How this report was made to be shared",
    );
  });

  test("a greater threshold withholds more", async () => {
    const [five, twenty] = [folder(), folder()];
    await report(five, "--share");
    await report(twenty, "--share", "--threshold", "20");
    const withheld = (into: string): number =>
      readFileSync(join(into, "results.json"), "utf8").match(/null/g)?.length ?? 0;
    expect(withheld(twenty)).toBeGreaterThan(withheld(five));
  });

  test("the notebook says the smallest count, and --threshold another", async () => {
    const notebook = join(folder(), "notebook.md");
    const demo = readFileSync("notebooks/demo.md", "utf8");
    writeFileSync(notebook, demo.replace(/^holdfast: 1$/m, "holdfast: 1\nsmallest_count: 12"));
    const smallest = async (...more: string[]): Promise<number> => {
      const into = folder();
      const given = ["report", notebook, "data-demo/repairs.csv", "--into", into, "--share"];
      await run([...given, "--quiet", ...more], {
        ...{ say: () => {}, warn: () => {}, isTerminal: false, today: 20_543 },
      });
      return JSON.parse(readFileSync(join(into, "results.json"), "utf8")).smallest_count;
    };
    expect([await smallest(), await smallest("--threshold", "7")]).toEqual([12, 7]);
  });

  test("not into a folder that holds the department's own report", async () => {
    const into = folder();
    writeFileSync(join(into, "problems.csv"), "");
    const { exit, warned } = await report(into, "--share");
    expect(exit).toBe(2);
    expect(warned).toContain("--share needs a folder of its own");
    expect(readdirSync(into)).toEqual(["problems.csv"]);
  });

  test.each([
    [["--threshold", "5"], "--threshold belongs to --share"],
    [["--share", "--threshold", "1"], "--threshold 1 is not a whole number of 2 or more"],
    [["--share", "--threshold", "few"], "--threshold few is not a whole number"],
  ])("%j is refused in words", async (more, why) => {
    const { exit, warned } = await report(folder(), ...more);
    expect(exit).toBe(2);
    expect(warned).toContain(why);
  });
});
