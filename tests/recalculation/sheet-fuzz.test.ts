import { describe, expect, test } from "vitest";
import { createSheet, type Sheet } from "../../src/recalculation/sheet.ts";
import { asNumber, shown, words } from "./words.ts";

/** A cell whose working is a sum, or whether the sum is odd: so that results often stay the same. */
interface Cell {
  readonly name: string;
  readonly terms: readonly (number | string)[];
  readonly parity: boolean;
}

const names = Array.from({ length: 12 }, (_, at) => `c${at}`);

function workingOf({ terms, parity }: Cell): string {
  const sum = terms.join(" + ");
  return parity ? `parity(${sum})` : sum;
}

/** Every cell worked out afresh by plain recursion, without any memory: the twin. */
function recomputed(cells: readonly Cell[], input: number | undefined): Map<string, string> {
  const byName = new Map(cells.map((cell) => [cell.name, cell]));
  const isOnCycle = (start: string, at: string, seen: Set<string>): boolean =>
    (byName.get(at)?.terms ?? []).some((term) => {
      if (term === start) return true;
      if (typeof term === "number" || seen.has(term)) return false;
      return isOnCycle(start, term, seen.add(term));
    });
  const work = (name: string): number | string | readonly string[] => {
    if (name === "cases") return input ?? ["cases"];
    const cell = byName.get(name)!;
    const isUnknown = (term: number | string) =>
      typeof term === "string" && term !== "cases" && !byName.has(term);
    if (isOnCycle(name, name, new Set())) {
      return cell.terms.some(isUnknown) ? "fault: unknown-name, cycle" : "fault: cycle";
    }
    if (cell.terms.some(isUnknown)) return "fault: unknown-name";
    const parts = cell.terms.map((term) => (typeof term === "number" ? term : work(term)));
    const roots = cell.terms.flatMap((term, at) => rootsOf(String(term), parts[at]!));
    if (roots.length > 0) return [...new Set(roots)];
    const sum = (parts as number[]).reduce((total, part) => total + part, 0);
    return cell.parity ? sum % 2 : sum;
  };
  return new Map(cells.map(({ name }) => [name, inWords(work(name))]));
}

function rootsOf(name: string, result: number | string | readonly string[]): readonly string[] {
  if (typeof result === "number") return [];
  return typeof result === "string" ? [name] : result;
}

function inWords(result: number | string | readonly string[]): string {
  if (typeof result === "number" || typeof result === "string") return String(result);
  return `waits for ${[...result].sort().join(", ")}`;
}

/** As the sheet shows it: causes of waiting sorted, each kind of fault once. */
function onSheet(sheet: Sheet, name: string): string {
  const text = shown(sheet, name);
  const [head, list = ""] = text.split(/(?<=^waits for|^fault:) /);
  const parts = [...new Set(list.split(", "))];
  if (head === "waits for") return `waits for ${parts.sort().join(", ")}`;
  return head === "fault:" ? `fault: ${parts.join(", ")}` : text;
}

/** A sequence of numbers from 0 to 1 that a seed decides (Park and Miller, 1988). */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

class Fuzz {
  readonly random: () => number;
  cells: readonly Cell[] = [];
  input: number | undefined;

  constructor(seed: number) {
    this.random = randomFrom(seed);
  }

  below(count: number): number {
    return Math.floor(this.random() * count);
  }

  cell(name: string): Cell {
    const terms = Array.from({ length: 1 + this.below(3) }, () => {
      if (this.random() < 0.4) return this.below(5);
      return this.random() < 0.1 ? "cases" : names[this.below(names.length)]!;
    });
    return { name, terms, parity: this.random() < 0.4 };
  }

  /** Adds, takes out, changes or moves a cell, or gives or takes away the input. */
  step(sheet: Sheet): void {
    const at = this.below(this.cells.length);
    const rest = this.cells.filter((_, other) => other !== at);
    const free = names.filter((name) => this.cells.every((cell) => cell.name !== name));
    const what = this.below(10);
    if (what === 0) {
      this.input = this.random() < 0.3 ? undefined : this.below(4);
      sheet.setInput("cases", this.input === undefined ? undefined : asNumber(this.input));
      return;
    }
    if (what < 4 && free.length > 0) {
      this.cells = [...this.cells, this.cell(free[this.below(free.length)]!)];
    } else if (what < 5) this.cells = rest;
    else if (what < 6 && this.cells[at] !== undefined) this.cells = [this.cells[at], ...rest];
    else if (this.cells[at] !== undefined) {
      this.cells = this.cells.with(at, this.cell(this.cells[at].name));
    }
    sheet.setCells(this.cells.map((cell) => ({ name: cell.name, working: workingOf(cell) })));
  }
}

describe("after any edits the sheet shows what plain recomputation gives", () => {
  test.each([1, 2, 3, 4, 5, 6, 7, 8])("seed %i", async (seed) => {
    const fuzz = new Fuzz(seed * 7919);
    const sheet = createSheet(words);
    for (let step = 0; step < 150; step++) {
      for (let edits = 1 + fuzz.below(3); edits > 0; edits--) fuzz.step(sheet);
      await sheet.settled();
      const states = fuzz.cells.map(({ name }) => [name, onSheet(sheet, name)]);
      expect(new Map(states as [string, string][])).toEqual(recomputed(fuzz.cells, fuzz.input));
    }
    sheet.dispose();
  });
});

describe("after any one edit only what it reaches is worked out again", () => {
  test.each([11, 12, 13, 14])("seed %i", async (seed) => {
    const fuzz = new Fuzz(seed * 104729);
    const sheet = createSheet(words);
    for (let step = 0; step < 150; step++) {
      const before = new Map(fuzz.cells.map((cell) => [cell.name, cell]));
      const counts = new Map(fuzz.cells.map(({ name }) => [name, sheet.recalculations(name)]));
      const results = recomputed(fuzz.cells, fuzz.input);
      const input = fuzz.input;
      fuzz.step(sheet);
      await sheet.settled();
      const after = recomputed(fuzz.cells, fuzz.input);
      const differs = (term: number | string) =>
        term === "cases"
          ? input !== fuzz.input
          : results.get(String(term)) !== after.get(String(term));
      for (const cell of fuzz.cells) {
        const old = before.get(cell.name);
        const again = sheet.recalculations(cell.name) - (counts.get(cell.name) ?? 0);
        const isReached =
          old === undefined || workingOf(old) !== workingOf(cell) || cell.terms.some(differs);
        const isNumber = /^\d+$/.test(after.get(cell.name)!);
        expect([cell.name, again]).toEqual([cell.name, isReached && isNumber ? 1 : 0]);
      }
    }
    sheet.dispose();
  });
});
