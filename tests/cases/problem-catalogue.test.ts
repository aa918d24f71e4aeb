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
});
