import { mkdirSync, mkdtempSync, readdirSync, statSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeEach, expect, test, vi } from "vitest";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "holdfast-"));
  vi.stubEnv("TMPDIR", folder);
  vi.resetModules();
  return () => vi.unstubAllEnvs();
});

/** As a run that begins anew. */
async function fonts(): Promise<string[]> {
  vi.resetModules();
  return (await import("../../src/command/chart-fonts.ts")).chartFonts();
}

test("every run uses one folder, whole files only, which nobody else can write to", async () => {
  const first = await fonts();
  expect(await fonts()).toEqual(first);
  const [only = "", ...others] = readdirSync(folder);
  expect(others).toEqual([]);
  const files = readdirSync(join(folder, only));
  expect(files.map((name) => join(folder, only, name)).sort()).toEqual([...first].sort());
  expect(statSync(join(folder, only)).mode & 0o077).toBe(0);
});

test("a folder of somebody else is not used", async () => {
  const elsewhere = join(folder, "elsewhere");
  mkdirSync(elsewhere);
  symlinkSync(elsewhere, join(folder, `holdfast-fonts-${process.getuid?.() ?? "unpacked"}`));
  await expect(fonts()).rejects.toThrow("is not a folder of this user");
});
