import { readFileSync } from "node:fs";
import { posix } from "node:path";
import { strFromU8, strToU8, unzipSync } from "fflate";
import { beforeAll, describe, expect, test } from "vitest";
import type { ReportInput } from "../../../src/report/report-input.ts";
import { sharedReport } from "../../../src/report/sharing/shared-report.ts";
import { slidesOf } from "../../../src/report/slides/slides-of.ts";
import { answeredOf, reportOf } from "../disclosure/shared-notebook.ts";
import { plain } from "./parsed-slides.ts";
import { faultOf } from "./well-formed.ts";

// The structure of a package, its content types, relationships and parts: ISO/IEC 29500-1 and -2.

const draw = async (svg: string) => strToU8(`drawn from ${svg.length}`);

let input: ReportInput;
let parts: Map<string, Uint8Array>;
const text = (name: string) => strFromU8(parts.get(name) ?? new Uint8Array());
const slideTexts = () =>
  [...parts.keys()].filter((name) => /^ppt\/slides\/slide\d+\.xml$/.test(name)).map(text);

beforeAll(async () => {
  input = await reportOf("notebooks/demo.md", readFileSync("data-demo/repairs.csv"));
  parts = new Map(Object.entries(unzipSync(await slidesOf(input, draw))));
});

describe("slides of the demo as a package", () => {
  test("every part of XML is well formed", () => {
    const xml = [...parts.keys()].filter((name) => /\.(xml|rels|svg)$/.test(name));
    expect(xml.length).toBeGreaterThan(30);
    expect(xml.flatMap((name) => faultOf(text(name)) ?? [])).toEqual([]);
  });

  test("every relationship leads to a part, and every reference to a relationship", () => {
    for (const name of parts.keys()) {
      if (!name.endsWith(".rels")) continue;
      const source = posix.join(posix.dirname(posix.dirname(name)), posix.basename(name, ".rels"));
      const related = [...text(name).matchAll(/Id="([^"]+)"[^>]*? Target="([^"]+)"/g)];
      for (const [, , target = ""] of related) {
        expect(parts.has(posix.join(posix.dirname(source), target)), `${name}: ${target}`).toBe(
          true,
        );
      }
      const ids = new Set(related.map(([, id]) => id));
      const used = [...text(source).matchAll(/ r:(?:embed|id|link)="([^"]+)"/g)];
      for (const [, id] of used) expect(ids, `${source}: ${id}`).toContain(id);
    }
  });

  test("every part has a content type, and no type is of a part that is not there", () => {
    const types = text("[Content_Types].xml");
    const overrides = [...types.matchAll(/PartName="\/([^"]+)"/g)].map(([, part]) => part ?? "");
    expect(overrides.filter((part) => !parts.has(part))).toEqual([]);
    const endings = [...types.matchAll(/Default Extension="([^"]+)"/g)].map(([, end]) => end);
    const typed = (name: string) =>
      overrides.includes(name) || endings.includes(name.split(".").at(-1));
    const names = [...parts.keys()].filter((each) => !/\/$|Content_Types/.test(each));
    expect(names.filter((name) => !typed(name))).toEqual([]);
  });

  test("it is the same again, and holds no day of its making", async () => {
    const [one, other] = [await slidesOf(input, draw), await slidesOf(input, draw)];
    expect(Buffer.compare(one, other)).toBe(0);
    expect(text("docProps/core.xml")).not.toMatch(/dcterms:(created|modified)/);
  });
});

describe("what stands on the slides of the demo", () => {
  test("each chart as SVG with its description, and as PNG drawn from that SVG", () => {
    const charts = input.cells.filter((cell) => answeredOf(cell)?.answer.chart !== undefined);
    const pictures = slideTexts().filter((slide) => slide.includes("<p:pic>"));
    expect(pictures).toHaveLength(charts.length);
    for (const slide of pictures) {
      expect(slide).toMatch(/<p:cNvPr id="\d+" name="[^"]+" descr="[^"]{30,}"/);
      expect(slide).toMatch(/asvg:svgBlip [^>]*r:embed="rId\d+"/);
    }
    const svgs = [...parts.keys()].filter((name) => name.endsWith(".svg"));
    expect(svgs).toHaveLength(charts.length);
    for (const svg of svgs) {
      const png = svg.replace(/-(\d+)\.svg$/, (_, at) => `-${Number(at) - 1}.png`);
      expect(text(png)).toBe(`drawn from ${text(svg).length}`);
    }
  });

  test("each table of the report, cell by cell, in tables whose first row is their head", () => {
    const shown = slideTexts().flatMap((slide) => [...slide.matchAll(/<a:tbl>.*?<\/a:tbl>/gs)]);
    const rows = shown.flatMap(([table]) => [...table.matchAll(/<a:tr [^>]*>.*?<\/a:tr>/gs)]);
    const texts = rows.map(([row]) => cellTexts(row).join("|").replaceAll("\u00a0", " "));
    for (const cell of input.cells) {
      const { columns = [], rows: expected = [] } = answeredOf(cell)?.answer.table ?? {};
      const kept = columns.flatMap(({ kind }, at) => (kind === "mark" ? [] : [at]));
      for (const row of expected) {
        const told = kept.map((at) => row[at]?.text ?? "").join("|");
        expect(texts).toContain(told.replaceAll("\u00a0", " "));
      }
    }
    for (const [table] of shown) expect(table).toContain('firstRow="1"');
  });

  test("a title on every slide, the cautions at the foot, the whole sentence in the notes", () => {
    for (const slide of slideTexts()) expect(slide).toMatch(/type="title"/);
    expect(slideTexts()[0]).toContain("not advice for a patient");
    const notes = [...parts.keys()].filter((name) => /notesSlide\d+\.xml$/.test(name)).map(text);
    const all = notes.map((each) => cellTexts(each).join("\n")).join("\n");
    const answer = input.cells
      .map(answeredOf)
      .find((each) => each?.answer.question === "failure_rate");
    for (const { text: caution } of answer?.answer.cautions ?? []) {
      expect(slideTexts().some((slide) => cellTexts(slide).join(" ").includes(caution))).toBe(true);
    }
    expect(all).toContain("Greenwood");
    expect(all).toContain(`eyes used;`);
  });
});

test("slides of a shared report hold no name of a file, no line and no minute of it", async () => {
  const shared = sharedReport(input, { threshold: 5, seed: 7 });
  const files = unzipSync(await slidesOf(shared, draw));
  const all = Object.values(files)
    .map((bytes) => strFromU8(bytes))
    .join("\n");
  expect(all).not.toContain("repairs.csv");
  expect(all).not.toContain(input.cases.sha256);
  expect(all).not.toContain("Minuted");
  expect(all).toContain("no count under 5 is shown");
});

/** The texts of table cells, or of paragraphs where there are none. */
function cellTexts(xml: string): string[] {
  const within = xml.includes("<a:tc>") ? /<a:tc>(.*?)<\/a:tc>/gs : /<a:p>(.*?)<\/a:p>/gs;
  return [...xml.matchAll(within)].map(([, inner = ""]) =>
    [...inner.matchAll(/<a:t>([^<]*)<\/a:t>/g)].map(([, each = ""]) => plain(each)).join(""),
  );
}
