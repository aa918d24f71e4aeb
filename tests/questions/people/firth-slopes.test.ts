import { expect, test } from "vitest";
import { firthSlopes } from "../../../src/questions/people/firth-slopes.ts";
import { csvCases } from "../csv-cases.ts";

test("Firth's slopes under quasi-separation, as R's brglm2 and Heinze and Schemper (2002) have them", () => {
  const { cases } = csvCases("endometrial.csv", { PI: "pi_index", NV: "nv", EH: "eh", HG: "hg" });
  const column = (name: string) => {
    const found = cases.columns.find((each) => each.name === name);
    return (found?.values ?? []).map(Number);
  };
  const outcome = column("hg").map((grade) => grade === 1);
  const slopes = firthSlopes(outcome, [column("nv"), column("pi_index"), column("eh")]);
  expect(slopes[0]).toBeCloseTo(2.9292733532, 6);
  expect(slopes[1]).toBeCloseTo(-0.0347517599, 7);
  expect(slopes[2]).toBeCloseTo(-2.6041639253, 6);
});
