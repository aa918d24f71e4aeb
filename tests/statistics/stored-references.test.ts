/** Where R is installed, the reference scripts are run again and must give what is stored. */
import { describe, expect, it } from "vitest";
import { expectClose } from "./close-to.ts";
import { hasR, readReference, runReference } from "./reference-data.ts";

const scripts = [
  "counts",
  "funnel",
  "beta-binomial",
  "monitoring",
  "two-group-power",
  "resampling",
];

describe.skipIf(!hasR("jsonlite", "boot"))("R gives now what is stored", () => {
  it.each(scripts)("%s", (name) => {
    expectAlike(withoutVersions(runReference(name)), withoutVersions(readReference(name)));
  });
});

function withoutVersions(value: unknown): unknown {
  const { versions, ...numbers } = value as { versions: unknown };
  expect(versions).toBeDefined();
  return numbers;
}

function expectAlike(actual: unknown, expected: unknown): void {
  if (typeof expected === "number") {
    expectClose(actual as number, expected, 1e-7);
  } else if (typeof expected !== "object" || expected === null) {
    expect(actual).toBe(expected);
  } else {
    const was = Object.entries(expected);
    expect(Object.keys(actual as object)).toEqual(was.map(([key]) => key));
    for (const [key, value] of was) expectAlike((actual as Record<string, unknown>)[key], value);
  }
}
