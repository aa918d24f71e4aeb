/** Where R and its packages are installed, the scripts are run again and must give what is stored. */
import { describe, expect, it } from "vitest";
import { expectClose } from "./close-to.ts";
import { hasR, readReference, runReference } from "./reference-data.ts";

const scripts = {
  distributions: [],
  proportions: [],
  tables: [],
  survival: ["survival"],
  "competing-risks": ["survival", "cmprsk"],
  cox: ["survival"],
  logistic: ["MASS", "pROC"],
  "sample-size": [],
} as const;

for (const [name, packages] of Object.entries(scripts)) {
  describe.skipIf(!hasR("jsonlite", ...packages))(`${name}.R`, () => {
    it("gives the stored numbers", () => {
      const { versions: _, ...stored } = readReference(name);
      const { versions: now, ...live } = runReference(name) as Record<string, unknown>;
      expect(now).toHaveProperty("R");
      expectSame(live, stored, name);
    }, 120_000);
  });
}

/** Numbers within 1e-6, everything else equal, at every place of both trees. */
function expectSame(live: unknown, stored: unknown, place: string): void {
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
    expectSame(
      (live as Record<string, unknown>)[key],
      (stored as Record<string, unknown>)[key],
      `${place}.${key}`,
    );
  }
}
