import { describe, expect, test } from "vitest";
import { dictionary } from "../../src/cases/dictionary.ts";
import { run } from "../../src/command/run.ts";

async function said(...given: string[]): Promise<{ code: number; out: string; err: string }> {
  let out = "";
  let err = "";
  const code = await run(given, {
    say: (text) => {
      out += text;
    },
    warn: (text) => {
      err += text;
    },
    isTerminal: false,
    today: 20_543,
  });
  return { code, out, err };
}

describe("what a file of cases can hold", () => {
  test("every field of the dictionary in a line of its group", async () => {
    const { code, out } = await said("fields");
    expect(code).toBe(0);
    for (const { name } of dictionary) expect(out).toMatch(new RegExp(`^ {2}${name} `, "m"));
    expect(out.split("\n").filter((line) => line.startsWith("  "))).toHaveLength(dictionary.length);
  });

  test("one of them in full, with the ways its codes are written", async () => {
    const { code, out } = await said("fields", "technique");
    expect(code).toBe(0);
    expect(out).toMatch(/^technique: /);
    expect(out).toMatch(/one of: .*vitrectomy/);
    expect(out).toMatch(/^ {2}vitrectomy: .*PPV/im);
  });

  test("one that there is not, with the nearest", async () => {
    expect(await said("fields", "tehnique")).toEqual({
      code: 2,
      out: "",
      err: "There is no field tehnique; did you mean technique?\n",
    });
  });
});
