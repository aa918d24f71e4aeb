import { mkdtempSync, readdirSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, test, vi } from "vitest";
import { chromiumPath } from "../../src/command/print-pdf.ts";
import { run } from "../../src/command/run.ts";

const hasChromium = chromiumPath() !== undefined;
afterEach(() => vi.unstubAllEnvs());

async function report(...more: string[]) {
  const into = mkdtempSync(join(tmpdir(), "holdfast-"));
  let warned = "";
  const exit = await run(
    ["report", "notebooks/demo.md", "data-demo/repairs.csv", "--into", into, "--quiet", ...more],
    {
      say: () => {},
      warn: (text) => {
        warned += text;
      },
      isTerminal: false,
      today: 20_543,
    },
  );
  return { exit, warned, into };
}

describe("--pdf", () => {
  // ISO 216: A4 is 210 by 297 mm, in points 595.28 by 841.89; Letter is 8.5 by 11 inches.
  test.skipIf(!hasChromium).each([
    ["A4", 595.28, 841.89],
    ["Letter", 612, 792],
  ])(
    "prints pages of %s",
    async (paper, width, height) => {
      const { exit, warned, into } = await report("--pdf", "--paper", paper);
      expect({ exit, warned }).toEqual({ exit: 0, warned: "" });
      const pdf = readFileSync(join(into, "report.pdf"), "latin1");
      expect(pdf.startsWith("%PDF-")).toBe(true);
      const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)];
      expect(boxes.length).toBeGreaterThan(5);
      for (const [, across, up] of boxes) {
        expect(Math.abs(Number(across) - width)).toBeLessThan(1);
        expect(Math.abs(Number(up) - height)).toBeLessThan(1);
      }
    },
    60_000,
  );

  test("where there is no Chromium the report is written, and it says what is needed", async () => {
    vi.stubEnv("CHROMIUM", "/nowhere/chromium");
    const { exit, warned, into } = await report("--pdf");
    expect(exit).toBe(1);
    expect(warned).toContain("--pdf needs Chromium");
    expect(readdirSync(into)).toContain("report.html");
    expect(readdirSync(into)).not.toContain("report.pdf");
  });

  test("another paper is refused in words", async () => {
    const { exit, warned } = await report("--pdf", "--paper", "A5");
    expect(exit).toBe(2);
    expect(warned).toContain("--paper A5 is neither A4 nor Letter");
  });
});
