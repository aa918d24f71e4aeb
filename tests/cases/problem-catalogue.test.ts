import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { catalogued, expectedMessages, messagesOf, readBroken } from "./problem-catalogue.ts";

/** Every kind of problem that the sources of the room name. */
function namedInSources(): readonly string[] {
  const room = join(import.meta.dirname, "../../src/cases");
  const files = readdirSync(room, { recursive: true, encoding: "utf8" });
  const codes = files
    .filter((file) => file.endsWith(".ts"))
    .flatMap((file) => [
      ...readFileSync(join(room, file), "utf8").matchAll(/\bcode: "([a-z0-9-]+)"/g),
    ])
    .map(([, code]) => code!);
  return [...new Set(codes)].sort();
}

describe("the catalogue of problems", () => {
  test("has a file for every kind that the sources name, and no other", () => {
    expect(catalogued()).toEqual(namedInSources());
  });

  test.each(catalogued())("%s", async (code) => {
    const messages = messagesOf(await readBroken(code), code);
    expect(messages).toBe(expectedMessages(code));
    expect(messages).not.toBe("");
  });

  test.each(catalogued())("%s.csv gives no problem without a file of its own", async (code) => {
    const { problems } = await readBroken(code);
    const known = new Set(catalogued());
    expect(problems.map((problem) => problem.code).filter((each) => !known.has(each))).toEqual([]);
  });

  /** What is checked of a case, by what it does to the row. */
  const promised = {
    stop: "event-before-operation last-seen-before-operation same-operation-twice row-unplaced",
    query:
      "not-a-day day-two-readings day-order-undecided day-in-future event-after-last-seen out-of-range code-unknown acuity-does-not-fit not-a-number not-whole not-yes-or-no not-an-acuity not-a-pvr-grade later-operation-without-first operations-out-of-order operation-number-twice detached-without-date attached-after-redetachment failure-without-date redetachment-before-reoperation oil-unaccounted gas-where-unsuitable case-twice private-column identifier-in-text row-short row-long row-moved",
  };

  test.each(Object.entries(promised))("checks that say %s", (severity, codes) => {
    for (const code of codes.split(" ")) {
      expect(catalogued()).toContain(code);
      expect(expectedMessages(code), code).toMatch(new RegExp(`^${severity}: `));
    }
  });

  test("every message says where, and what would be right or what to do", () => {
    for (const code of catalogued()) {
      const [message = "", ...rest] = expectedMessages(code).split("\n\n");
      for (const each of [message, ...rest]) {
        expect(each, code).toMatch(/^(stop|query|note): [^,:]+/);
        if (!each.startsWith("note:")) expect(each, code).toMatch(/^ {2}(expected|remedy) {2}/m);
      }
    }
  });
});
