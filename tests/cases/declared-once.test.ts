import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { TemplateResult } from "lit";
import { describe, expect, test } from "vitest";
import { CasesToCheck } from "../../src/cases/checks/check.ts";
import { queryFindings, stoppingFindings } from "../../src/cases/checks/run-checks.ts";
import { dictionary, fieldNamed } from "../../src/cases/dictionary.ts";
import type { Field } from "../../src/cases/field.ts";
import type { CellValue } from "../../src/cases/table.ts";
import { run } from "../../src/command/run.ts";
import { matchChoices } from "../../src/page/cases-leaf/match-choices.ts";
import { SheetHost } from "../../src/page/worker/sheet-host.ts";
import { fieldsSection } from "../../src/report/fields-section.ts";
import { fieldsUsed } from "../../src/report/fields-used.ts";
import { readText } from "./read-text.ts";

const namesOf = (fields: readonly { readonly name: string }[]) => fields.map(({ name }) => name);

/** Fields that a file can have, and all fields. */
const inFiles = dictionary.filter(({ madeFrom }) => madeFrom === undefined);
const all = namesOf(dictionary).sort();

/** A sound value of each kind; days in the order in which they come. */
function soundValue({ name, kind, codes, range }: Field): string {
  if (name === "operation_date") return "2024-01-10";
  if (name === "last_seen_date" || name === "death_date") return "2024-12-31";
  if (name === "break_clock_hours") return "3";
  switch (kind) {
    case "day":
      return "2024-06-01";
    case "number":
      return String(Math.max(1, range?.least ?? 1));
    case "truth":
      return "yes";
    case "code":
    case "codes":
      return codes![0]!.code;
    case "acuity":
      return "6/9";
    default:
      return `${name[0]}1`;
  }
}

/** A file with every field, each under the last heading that it is known by. */
function fileOf(written: (field: Field) => string): string {
  return `${inFiles.map(lastHeading).join(",")}\n${inFiles.map(written).join(",")}\n`;
}

function lastHeading({ name, headings }: Field): string {
  return headings.at(-1) ?? name;
}

/** Headings matched by the notebook, so that no value beneath casts doubt on them. */
const matching = {
  columns: new Map(inFiles.map((field) => [lastHeading(field), { field: field.name }])),
  values: new Map(),
};

const everyField = fileOf(soundValue);

describe("every field is declared once, and what is said of it elsewhere comes from there", () => {
  const reading = readText(everyField, { today: 20_500 });

  test("the reader finds every field that a file can have, and makes the others", () => {
    expect(reading.columns.map(({ field }) => field)).toEqual(namesOf(inFiles));
    expect(namesOf(reading.cases.columns).sort()).toEqual(all);
    for (const { name, kind, label, unit } of reading.cases.columns) {
      const declared = fieldNamed(name)!;
      expect({ kind, label, unit }).toEqual({
        kind: declared.kind,
        label: declared.label,
        unit: declared.unit,
      });
    }
  });

  test("a heading can be matched to each of them on the page, and to no other", () => {
    const offered = [...wordsIn(matchChoices(reading.columns[0]!))].flatMap((word) =>
      word.startsWith("field ") ? [word.slice("field ".length)] : [],
    );
    expect([...new Set(offered)].sort()).toEqual(namesOf(inFiles).sort());
  });

  test("the desk completes each of them", async () => {
    const host = new SheetHost(() => {}, 20_500);
    const notebook = "---\nholdfast: 1\n---\n\n    eyes = index_eyes(cases)\n";
    await host.answer({ ask: "open notebook", name: "n.md", text: notebook });
    const bytes = new TextEncoder().encode(everyField);
    await host.answer({ ask: "open cases", name: "all.csv", bytes, invented: true });
    const text = "failure_rate(eyes, by: ";
    const reply = await host.answer({ ask: "complete", cell: "x", text, offset: text.length });
    const { options } = reply as {
      options: readonly { kind: string; label: string; meaning: string }[];
    };
    const columns = options.filter(({ kind }) => kind === "column");
    expect([...new Set(columns.map(({ label }) => label))].sort()).toEqual(all);
    for (const { label, meaning } of columns) {
      expect(meaning, label).toBe(dictionary.find(({ name }) => name === label)?.meaning);
    }
  });

  test("the report's page of columns explains each of them", () => {
    const used = fieldsUsed(reading);
    expect(namesOf(used)).toEqual(namesOf(inFiles));
    const section = String(fieldsSection(used, reading)?.text);
    for (const { meaning } of inFiles) expect(section).toContain(escaped(meaning));
  });

  test("the command line lists each of them, and each in full", async () => {
    const listed = await said("fields");
    const names = [...listed.matchAll(/^ {2}([a-z_]+) /gm)].map(([, name]) => name!);
    expect(names.sort()).toEqual(all);
    for (const { name, meaning, headings, codes } of dictionary) {
      const full = await said("fields", name);
      for (const told of [meaning, ...headings, ...(codes ?? []).map(({ code }) => code)]) {
        expect(full, name).toContain(told);
      }
    }
  });

  test("no other source says what a field means", () => {
    const sources = readdirSync("src", { recursive: true, encoding: "utf8" })
      .filter((file) => file.endsWith(".ts"))
      .map((file) => readFileSync(join("src", file), "utf8"));
    for (const { meaning, name } of dictionary) {
      expect(sources.filter((text) => text.includes(meaning)).length, name).toBe(1);
    }
  });
});

describe("the checks", () => {
  /** What no field of that kind can be read from; any text is text. */
  const broken = (field: Field) => (field.kind === "text" ? soundValue(field) : "zzzz");

  test("a value that is none of its kind is asked about in every field but texts", () => {
    const reading = readText(fileOf(broken), { matching });
    const asked = reading.problems.flatMap(({ severity, place }) =>
      severity === "query" && place.line === 2 ? [place.field!] : [],
    );
    const notTexts = inFiles.filter(({ kind }) => kind !== "text");
    expect([...new Set(asked)].sort()).toEqual(namesOf(notTexts).sort());
  });

  test("a number outside its range is asked about in every field that has one", () => {
    const ranged = inFiles.filter(({ range }) => range !== undefined);
    for (const field of ranged) {
      const { least, most } = field.range!;
      const outside = Number.isFinite(most) ? most + 1 : least - 1;
      const text = fileOf((each) => (each === field ? String(outside) : soundValue(each)));
      const found = readText(text, { matching }).problems.filter(
        ({ place }) => place.field === field.name,
      );
      expect(
        found.map(({ code }) => code),
        field.name,
      ).toContain("out-of-range");
    }
    expect(ranged.length).toBeGreaterThan(10);
  });

  test("a day to come is asked about in every field of days", () => {
    const days = namesOf(inFiles.filter(({ kind }) => kind === "day"));
    const reading = readText(everyField, { today: 10_000 });
    const asked = reading.problems.filter(({ code }) => code === "day-in-future");
    expect(asked.map(({ place }) => place.field).sort()).toEqual(days.sort());
  });

  test("between columns ask for declared fields and for no other", () => {
    const asked = new Set<string>();
    class Watched extends CasesToCheck {
      override has(field: string): boolean {
        asked.add(field);
        return super.has(field);
      }
      override values(field: string): readonly CellValue[] | undefined {
        asked.add(field);
        return super.values(field);
      }
      override value(field: string, row: number): CellValue {
        asked.add(field);
        return super.value(field, row);
      }
    }
    const { columns } = readText(everyField).cases;
    stoppingFindings(new Watched(columns));
    queryFindings(new Watched(columns));
    expect([...asked].filter((name) => fieldNamed(name) === undefined)).toEqual([]);
    expect(asked.size).toBeGreaterThan(12);
  });
});

/** Every text in what a template is filled with. */
function* wordsIn(value: unknown): Generator<string> {
  if (typeof value === "string") yield value;
  else if (Array.isArray(value)) for (const part of value) yield* wordsIn(part);
  else if (typeof value === "object" && value !== null && "values" in value)
    yield* wordsIn([...(value as TemplateResult).values]);
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}

async function said(...given: string[]): Promise<string> {
  let out = "";
  const say = (text: string): void => {
    out += text;
  };
  await run(given, { say, warn: say, isTerminal: false, today: 20_543 });
  return out;
}
