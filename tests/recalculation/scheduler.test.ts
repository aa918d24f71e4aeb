import { runInNewContext } from "node:vm";
import { build } from "vite";
import { describe, expect, test, vi } from "vitest";

const entry = new URL("./built-sheet.ts", import.meta.url).pathname;

describe("the sheet does not wait for animation frames", () => {
  test("where they never come, as in a hidden tab", async () => {
    const never = vi.fn();
    vi.stubGlobal("requestAnimationFrame", never);
    const { createSheet } = await import("../../src/recalculation/sheet.ts");
    const sheet = createSheet(new Map());
    sheet.setCells([{ name: "a", working: "1 + 1" }]);
    await sheet.settled();
    expect(sheet.state("a")).toEqual({ status: "current", value: { kind: "number", number: 2 } });
    expect(never).not.toHaveBeenCalled();
    expect(globalThis.requestAnimationFrame).toBe(never);
    vi.unstubAllGlobals();
  });

  test("in the built program, without frames, timers or anything of Node", async () => {
    const never = vi.fn();
    const context = { requestAnimationFrame: never, setTimeout: never, queueMicrotask, told: "" };
    runInNewContext(await built(), context);
    await vi.waitFor(() => expect(context.told).toBe("current: 2"));
    expect(never).not.toHaveBeenCalled();
    expect(context.requestAnimationFrame).toBe(never);
  });
});

/** The entry and all it needs as one script, minified as the page is. */
async function built(): Promise<string> {
  const output = await build({
    configFile: false,
    logLevel: "silent",
    build: { write: false, minify: true, lib: { entry, formats: ["iife"], name: "built" } },
  });
  const [first] = Array.isArray(output) ? output : [output];
  if (first === undefined || !("output" in first)) throw new Error("nothing was built");
  return first.output[0].code;
}
