import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { run } from "../../src/command/run.ts";
import type { DepartmentsReplies, DepartmentsView } from "../../src/page/departments-protocol.ts";
import type { Done } from "../../src/page/done.ts";
import type { CellView, News, NotebookView, Request } from "../../src/page/protocol.ts";
import { SheetHost } from "../../src/page/worker/sheet-host.ts";
import { reportFiles } from "../../src/report/files/report-files.ts";

/** 2026-03-31 */
const today = 20_543;
const pooled = readFileSync("notebooks/pooled.md", "utf8");
const demo = readFileSync("notebooks/demo.md", "utf8");
const cases = { name: "repairs.csv", bytes: readFileSync("data-demo/repairs.csv") };
const names = ["unit-n.json", "unit-s.json", "unit-w.json"];
const pathOf = (name: string) => `data-demo/departments/${name}`;
const fileOf = (name: string) => ({ name, bytes: new Uint8Array(readFileSync(pathOf(name))) });
const textFile = (name: string, text: string) => ({ name, bytes: new TextEncoder().encode(text) });
const textOfN = readFileSync(pathOf("unit-n.json"), "utf8");

/** A host, and what the page would know from all it told. */
class Hosted {
  readonly cells = new Map<string, CellView>();
  departments: DepartmentsView | null = null;
  notebook: NotebookView | undefined;
  readonly #host = new SheetHost((news) => this.#hear(structuredClone(news)), today);

  ask<R extends Request>(request: R) {
    return this.#host.answer(request);
  }

  async open(...files: readonly ReturnType<typeof fileOf>[]): Promise<Done> {
    return this.ask({ ask: "open departments", files });
  }

  async notebookOf(text: string, name = "pooled.md"): Promise<void> {
    await this.ask({ ask: "open notebook", name, text });
  }

  get units(): readonly string[] {
    return (this.departments?.departments ?? []).map(({ unit }) => unit);
  }

  #hear(news: News): void {
    if (news.tell === "departments") this.departments = news.view;
    if (news.tell === "notebook") this.notebook = news.view;
    if (news.tell === "cells") for (const view of news.views) this.cells.set(view.name, view);
  }
}

async function pooledHost(...files: readonly string[]): Promise<Hosted> {
  const hosted = new Hosted();
  await hosted.notebookOf(pooled);
  if (files.length > 0) await hosted.open(...files.map(fileOf));
  return hosted;
}

async function command(...given: string[]): Promise<void> {
  const warned: string[] = [];
  const warn = (text: string) => warned.push(text);
  const exit = await run(given, { say: () => {}, warn, isTerminal: false, today });
  expect({ exit, warned }).toEqual({ exit: 0, warned: [] });
}

describe("aggregates of departments", () => {
  it("answer the questions that ask of them, and say what is open and what is withheld", async () => {
    const hosted = await pooledHost();
    expect(hosted.notebook?.restsOn).toEqual(["departments"]);
    expect(hosted.cells.get("together")?.waitsFor).toEqual(["departments"]);
    expect(await hosted.open(...names.map(fileOf))).toEqual({ done: true, problems: [] });
    expect(hosted.cells.get("together")).toMatchObject({ status: "current", kind: "answer" });
    expect(hosted.departments).toMatchObject({
      invented: false,
      definition: { failure: "redetachment", window: "6 months" },
    });
    const { groups } = JSON.parse(textOfN);
    const told = hosted.departments?.departments[0];
    expect(told).toMatchObject({
      ...{ unit: "unit N", file: "unit-n.json", period: "operated from 2023 Q1 to 2025 Q4" },
      ...{ eyes: 340, smallestCount: 5, by: ["technique", "risk_stratum"] },
    });
    const withheld = [...textOfN.matchAll(/"withheld": true/g)].length;
    expect(told?.counts).toEqual({ all: 4 * groups.length, withheld });
  });

  it("are put to those before, can be removed, and both can be undone", async () => {
    const hosted = await pooledHost("unit-n.json");
    await hosted.open(fileOf("unit-s.json"));
    expect(hosted.units).toEqual(["unit N", "unit S"]);
    await hosted.ask({ ask: "remove department", unit: "unit N" });
    expect(hosted.units).toEqual(["unit S"]);
    await hosted.ask({ ask: "undo" });
    expect(hosted.units).toEqual(["unit N", "unit S"]);
    await hosted.ask({ ask: "undo" });
    expect(hosted.units).toEqual(["unit N"]);
    await hosted.ask({ ask: "remove department", unit: "unit N" });
    expect(hosted.departments).toBeNull();
    expect(hosted.cells.get("together")?.waitsFor).toEqual(["departments"]);
  });

  it("that are invented give way to a reader's own, whichever comes first", async () => {
    const hosted = new Hosted();
    const files = names.map(fileOf);
    await hosted.ask({ ask: "open departments", files, invented: true, atStart: true });
    expect(hosted.departments?.invented).toBe(true);
    expect(hosted.notebook?.undo).toBeUndefined();
    await hosted.open(textFile("own.json", textOfN.replace("unit N", "our unit")));
    expect(hosted.units).toEqual(["our unit"]);
    expect(hosted.departments?.invented).toBe(false);
    await hosted.ask({ ask: "open departments", files, invented: true, atStart: true });
    expect(hosted.units).toEqual(["our unit"]);
  });
});

describe("a faulty file", () => {
  const touched = textOfN.replace('"unit N"', '"unit T"').replace('"eyes": 340', '"eyes": 341');
  const other = textOfN.replace('"unit N"', '"unit O"').replace('"redetachment"', '"reoperation"');
  it.each([
    ["that is no JSON", "{", "the file is not JSON", ""],
    ["of another program", '{"rows": []}', "not a file of aggregates", "holdfast_aggregates"],
    [
      "of a newer version",
      textOfN.replace('aggregates": 1', 'aggregates": 2'),
      "written by a newer version",
      "holdfast_aggregates",
    ],
    ["that was touched", touched, "counts of all eyes do not fit together", "groups"],
    ["of another definition", other, "what counts as a failure", "definition.failure"],
    [
      "of the same department",
      textOfN.replace("2023 Q1 to 2025 Q4", "2020 Q1 to 2022 Q4"),
      "two files are of the same department",
      "unit",
    ],
    [
      "of the same counts under another name",
      textOfN.replace('"unit N"', '"unit M"'),
      "the same counts and times",
      "groups",
    ],
  ])("%s is refused by name, and those that are open stay", async (_, text, why, field) => {
    const hosted = await pooledHost("unit-n.json");
    const before = structuredClone(hosted.cells.get("together"));
    const { done, problems } = await hosted.open(textFile("further.json", text));
    expect(done).toBe(false);
    expect(problems[0]?.place.file).toBe("further.json");
    expect(problems.map(({ message }) => message).join(" ")).toContain(why);
    expect(problems[0]?.expected).toEqual(expect.any(String));
    expect(problems[0]?.place.field ?? "").toContain(field);
    expect(hosted.units).toEqual(["unit N"]);
    expect(hosted.cells.get("together")).toEqual(before);
  });

  it("takes nothing from those that come with it", async () => {
    const hosted = await pooledHost();
    const { done, problems } = await hosted.open(
      ...[fileOf("unit-n.json"), textFile("torn.json", "{"), fileOf("unit-w.json")],
    );
    expect(done).toBe(true);
    expect(problems.map(({ place }) => place.file)).toEqual(["torn.json"]);
    expect(hosted.units).toEqual(["unit N", "unit W"]);
  });
});

describe("cases and aggregates", () => {
  it("stay apart: each question waits for what it asks of", async () => {
    const hosted = new Hosted();
    await hosted.notebookOf(demo, "demo.md");
    await hosted.open(fileOf("unit-n.json"));
    expect(hosted.notebook?.restsOn).toEqual(["cases"]);
    expect(hosted.cells.get("eyes")?.waitsFor).toEqual(["cases"]);
    expect(await hosted.ask({ ask: "report" })).toBeNull();
    await hosted.ask({ ask: "open cases", ...cases });
    expect(hosted.cells.get("how_often")?.status).toBe("current");
    await hosted.ask({ ask: "remove department", unit: "unit N" });
    await hosted.notebookOf(pooled);
    expect(hosted.cells.get("together")?.waitsFor).toEqual(["departments"]);
    expect(await hosted.ask({ ask: "report" })).toBeNull();
  });

  it("are in no report together", async () => {
    const hosted = new Hosted();
    await hosted.notebookOf(`${pooled}\n    eyes = index_eyes(cases, within: 6 months)\n`);
    await hosted.ask({ ask: "open cases", ...cases });
    await hosted.open(fileOf("unit-n.json"));
    expect(hosted.notebook?.restsOn).toEqual(["cases", "departments"]);
    expect(hosted.cells.get("together")?.status).toBe("current");
    expect(await hosted.ask({ ask: "report" })).toBeNull();
  });

  it("are no footing for each other: what is minuted of departments keeps no rows of cases", async () => {
    const hosted = await pooledHost(...names);
    await hosted.ask({ ask: "open cases", ...cases });
    await hosted.ask({ ask: "minute", cell: "when", text: "13.1%" });
    const { text } = await hosted.ask({ ask: "notebook text" });
    expect(text).toMatch(/minuted 2026-03-31: 13\.1%\n/);
  });
});

describe("what leaves the page", () => {
  const into = mkdtempSync(join(tmpdir(), "holdfast-"));
  const written = (name: string) => readFileSync(join(into, name), "utf8");

  beforeAll(async () => {
    const files = names.map(pathOf);
    await command(
      ...["report", "notebooks/pooled.md", ...files, "--aggregates", "--into", into],
      ...["--dated", "2026-03-31", "--quiet"],
    );
    await command(
      ...["aggregates", "notebooks/demo.md", "data-demo/repairs.csv", "--quiet"],
      ...["--into", join(into, "own.json"), "--unit", "unit E", "--by", "macula"],
      ...["--threshold", "6", "--dated", "2026-03-31"],
    );
  }, 60_000);

  it("is the command line's report of departments, byte for byte, whatever cases are open", async () => {
    const hosted = await pooledHost(...names);
    await hosted.ask({ ask: "open cases", ...cases });
    const report = await hosted.ask({ ask: "report", smallestCount: 5 });
    if (report === null) throw new Error("no report");
    for (const { name, content } of await reportFiles(structuredClone(report))) {
      expect(content, name).toBe(written(name));
    }
    const finding = await hosted.ask({ ask: "finding", cell: "together" });
    expect(finding).toEqual(report.cells[0]);
  });

  it("is the command line's file of aggregates, byte for byte", async () => {
    const hosted = new Hosted();
    await hosted.notebookOf(demo, "demo.md");
    const wanted = { eyes: "eyes", unit: "unit E", smallestCount: 6, by: ["macula"] };
    const none = await hosted.ask({ ask: "write aggregates", ...wanted });
    expect(none).toMatchObject({ problems: [{ code: "no-cases-to-hand-over" }] });
    await hosted.ask({ ask: "open cases", ...cases });
    const made = await hosted.ask({ ask: "write aggregates", ...wanted });
    expect(made).toMatchObject({ name: "demo aggregates.json", text: written("own.json") });
    const refused = await hosted.ask({ ask: "write aggregates", ...wanted, by: ["surgeon"] });
    expect(refused).toMatchObject({ problems: [{ place: { field: "surgeon" } }] });
    const again = await pooledHost();
    const { text } = made as Extract<DepartmentsReplies["write aggregates"], { text: string }>;
    expect(await again.open(textFile("own.json", text))).toEqual({ done: true, problems: [] });
  });
});
