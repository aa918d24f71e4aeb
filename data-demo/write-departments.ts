import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { run } from "../src/command/run.ts";
import { generateDemo } from "./generate.ts";

/** Three more invented units, each drawn from a seed of its own. */
export const departments = [
  { unit: "unit N", file: "unit-n.json", seed: 311, eyes: 340 },
  { unit: "unit S", file: "unit-s.json", seed: 312, eyes: 520 },
  { unit: "unit W", file: "unit-w.json", seed: 313, eyes: 210 },
] as const;

/** What the units agreed to count, so that their aggregates can be pooled. */
const agreed = `---
holdfast: 1
title: For pooling
period: operated from 2023-01-01 to 2025-12-31
---

    eyes = index_eyes(cases, failure: "redetachment", within: 6 months)
`;

/** The day of the invented files, 2026-03-31, in days since 1970-01-01. */
const today = 20_543;

/** Writes the aggregates that each unit would send, and no case of it. */
export async function writeDepartments(into: string): Promise<void> {
  const own = mkdtempSync(join(tmpdir(), "holdfast-departments-"));
  const notebook = join(own, "agreed.md");
  writeFileSync(notebook, agreed);
  mkdirSync(into, { recursive: true });
  for (const { unit, file, seed, eyes } of departments) {
    const cases = join(own, "repairs.csv");
    writeFileSync(cases, generateDemo(seed, { eyes, faults: false }).csv);
    const given = ["aggregates", notebook, cases, "--into", join(into, file), "--unit", unit];
    const warned: string[] = [];
    const speaker = { say: () => {}, warn: (text: string) => warned.push(text) };
    const exit = await run([...given, "--quiet"], { ...speaker, isTerminal: false, today });
    if (exit !== 0) throw new Error(`${unit}: ${warned.join("")}`);
  }
  rmSync(own, { recursive: true });
}
