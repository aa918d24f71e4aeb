/** Where R and its packages are installed, the reference scripts are run again and must give what is stored. */
import { describe, expect, it } from "vitest";
import { expectClose } from "./close-to.ts";
import { hasR, readReference, runReference } from "./reference-data.ts";

/** Each script with the packages that it needs beside R's own. */
const scripts = {
  distributions: [],
  proportions: [],
  tables: [],
  clustered: ["sandwich"],
  counts: [],
  funnel: [],
  "beta-binomial": [],
  survival: ["survival"],
  "competing-risks": ["survival", "cmprsk"],
  "clustered-incidence": ["survival"],
  cox: ["survival"],
  logistic: ["MASS", "pROC"],
  monitoring: [],
  resampling: ["boot"],
  "sample-size": [],
  "signed-rank": [],
  "two-group-power": [],
} as const;

for (const [name, packages] of Object.entries(scripts)) {
  describe.skipIf(!hasR("jsonlite", ...packages))(`${name}.R`, () => {
    it("gives the stored numbers", () => {
      const { versions: stored, ...expected } = readReference(name);
      const { versions: now, ...live } = runReference(name) as Record<string, unknown>;
      expect(stored).toHaveProperty("R");
      expect(now).toHaveProperty("R");
      expectAlike(live, expected, name);
    }, 120_000);
  });
}

/** Numbers within 1e-6 (R's own optimisers stop there), all else equal, at every place of both trees. */
function expectAlike(live: unknown, stored: unknown, place: string): void {
  if (typeof stored === "number") {
    expectClose(live as number, stored, 1e-6);
    return;
  }
  if (typeof stored !== "object" || stored === null) {
    expect(live, place).toBe(stored);
    return;
  }
  const keys = Object.keys(stored);
  expect(Object.keys(live as object), place).toEqual(keys);
  for (const key of keys) {
    const at = (tree: unknown) => (tree as Record<string, unknown>)[key];
    expectAlike(at(live), at(stored), `${place}.${key}`);
  }
}
