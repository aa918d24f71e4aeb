import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { MatchedColumn } from "../../src/cases/case-reading.ts";
import { dictionary } from "../../src/cases/dictionary.ts";
import type { Field } from "../../src/cases/field.ts";
import { readCases } from "../../src/cases/read-cases.ts";
import { listFields } from "../../src/command/list-fields.ts";
import { matchChoices } from "../../src/page/cases-leaf/match-choices.ts";
import { SheetHost } from "../../src/page/worker/sheet-host.ts";
import { fieldsUsed } from "../../src/report/fields-used.ts";

/*
 * Each field is declared once, in the dictionary: whatever reads, checks, offers, completes or
 * documents fields has these and no others.
 */

const all = dictionary.map(({ name }) => name).sort();
const inFiles = dictionary.filter(({ madeFrom }) => madeFrom === undefined);
const declared = inFiles.map(({ name }) => name).sort();

/** A value that the field takes. */
function sampleOf({ name, kind, codes, range }: Field): string {
  if (name === "pvr_grade") return "C";
  if (codes !== undefined) return codes[0]!.code;
  if (kind === "day") return name === "operation_date" ? "2024-03-05" : "2024-09-05";
  if (kind === "number") return String(Math.ceil(range?.least ?? 1) + 1);
  if (kind === "acuity") return "6/9";
  return kind === "truth" ? "no" : "x1";
}

const rows = [inFiles.map(({ name }) => name), inFiles.map(sampleOf)];
const bytes = new TextEncoder().encode(`${rows.map((row) => row.join(",")).join("\n")}\n`);
const reading = readCases({ name: "every-field.csv", bytes }, { today: 20_700 });

/** Everything that a template holds, of whatever depth. */
function textsIn(value: unknown): readonly string[] {
  if (typeof value === "string") return [value];
  if (Array.isArray(value)) return value.flatMap(textsIn);
  return typeof value === "object" && value !== null && "values" in value
    ? textsIn(value.values)
    : [];
}

describe("every field of the dictionary, and no other", () => {
  it("is read from a column of its name", () => {
    expect(reading.columns.map(({ field }) => field).sort()).toEqual(declared);
  });

  it("is explained in the report where the file has it", () => {
    const used = fieldsUsed(reading);
    expect(used.map(({ name }) => name).sort()).toEqual(declared);
    for (const { name, meaning } of used) {
      expect(meaning).toBe(dictionary.find((field) => field.name === name)?.meaning);
    }
  });

  it("can be chosen for a heading on the leaf Cases", () => {
    const column: MatchedColumn = {
      heading: "x",
      position: 0,
      by: "guess",
      sample: [],
      missing: 0,
    };
    const offered = textsIn(matchChoices(column)).flatMap((text) =>
      text.startsWith("field ") ? text.slice("field ".length) : [],
    );
    expect(offered.sort()).toEqual(declared);
  });

  it("is completed in a condition on rows, with its meaning", async () => {
    const host = new SheetHost(() => {}, 20_700);
    const text = "---\nholdfast: 1\n---\n\n    some = keep(cases, )\n";
    await host.answer({ ask: "open notebook", name: "small.md", text });
    await host.answer({ ask: "open cases", name: "every-field.csv", bytes });
    const working = "keep(cases, )";
    const asked = { cell: "some", text: working, offset: working.length - 1 };
    const { options } = await host.answer({ ask: "complete", ...asked });
    const meanings = new Map(options.map(({ label: name, meaning }) => [name, meaning]));
    expect(all.filter((name) => !meanings.has(name))).toEqual([]);
    for (const { name, meaning } of dictionary) expect(meanings.get(name), name).toBe(meaning);
  });

  it("is listed by the command line", () => {
    let said = "";
    listFields(undefined, {
      say: (text: string) => (said += text),
      warn: () => {},
      today: 0,
    } as never);
    const listed = said.split("\n").flatMap((line) => /^ {2}(\w+)/.exec(line)?.[1] ?? []);
    expect(listed.sort()).toEqual(all);
  });

  it("is what the checks of rows are about", () => {
    const folder = "src/cases/checks";
    const named = readdirSync(folder).flatMap((file) =>
      [...readFileSync(`${folder}/${file}`, "utf8").matchAll(/"([a-z]+(?:_[a-z]+)+)"/g)].map(
        ([, name]) => name,
      ),
    );
    expect(named.length).toBeGreaterThan(10);
    expect([...new Set(named)].filter((name) => !all.includes(name ?? ""))).toEqual([]);
  });
});
