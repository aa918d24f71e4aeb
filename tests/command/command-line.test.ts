import { describe, expect, test } from "vitest";
import { run } from "../../src/command/run.ts";

const demo = "notebooks/demo.md";
const cases = "data-demo/repairs.csv";

async function holdfast(...given: string[]) {
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

describe("what is given to the command line", () => {
  test.each<[string[], RegExp]>([
    [["report", demo, cases, "--ino", "x"], /^--ino is no option; did you mean --into\?$/m],
    [["report", demo, cases, "--sildes"], /--sildes is no option; did you mean --slides\?/],
    [["report", demo, cases, "--into"], /^--into needs a value after it$/m],
    [["report", cases, demo, "--into", "x"], /the notebook comes first, then the cases/],
    [["report", demo, cases, cases, "--into", "x"], /too many .*--later or --follow-up/],
    [["check", cases, cases], /check takes one file; .* is too many/],
    [["check", cases, "--slides"], /--slides does not go with check; it belongs to report/],
    [["compare", demo, cases, cases, "--later", "x"], /--later does not go with compare/],
    [["help", "reprot"], /did you mean report\?/],
  ])("%j is refused, with what was meant", async (given, why) => {
    const { exit, said, warned } = await holdfast(...given);
    expect({ exit, said }).toEqual({ exit: 2, said: "" });
    expect(warned).toMatch(why);
  });

  test.each(["report", "aggregates", "compare", "check", "words", "fields"])(
    "help of %s is its own part of the whole, with the exit codes",
    async (act) => {
      const { exit, said } = await holdfast("help", act);
      expect(exit).toBe(0);
      expect((await holdfast(act, "--help")).said).toBe(said);
      expect(said).toMatch(new RegExp(`^ {2}holdfast ${act} `));
      expect(said).toContain("It ends with");
      const all = (await holdfast("--help")).said;
      expect(said.length).toBeLessThan(all.length / 1.5);
    },
  );
});
