import { readFileSync } from "node:fs";
import { strFromU8, strToU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { reportOfSession } from "../../../src/report/report-of-session.ts";
import { deckOf } from "../../../src/report/slides/deck.ts";
import { placeSlide } from "../../../src/report/slides/place-slide.ts";
import type { Slide } from "../../../src/report/slides/slide.ts";
import { slidesOf } from "../../../src/report/slides/slides-of.ts";
import { openShipped, shippedNotebooks } from "../../notebooks/shipped-notebooks.ts";
import { misfits } from "./misfits.ts";
import { type ParsedShape, parsedSlides } from "./parsed-slides.ts";

const draw = async (svg: string) => strToU8(`drawn from ${svg.length}`);

describe.each(shippedNotebooks)("the slides of $name", (shipped) => {
  test("everything stands on its slide and fits, and each chart is a picture told in words", async () => {
    const session = await openShipped(shipped);
    const input = reportOfSession(session, { version: "0", sha256: "0".repeat(64) });
    const written = await slidesOf(input, draw);
    session.dispose();
    const parts = unzipSync(written);
    const slides = parsedSlides(written);
    const found = slides.flatMap((shapes, at) =>
      misfits(shapes).map((each) => `slide ${at + 1}: ${each}`),
    );
    expect(found).toEqual([]);
    expect(slides.length).toBeGreaterThan(5);
    for (const picture of slides.flat().filter(({ kind }) => kind === "picture")) {
      expect(picture.description.length).toBeGreaterThan(30);
      expect(picture.pictures.map((part) => part.split(".").at(-1))).toEqual(["png", "svg"]);
      expect(readable(strFromU8(parts[picture.pictures[1] ?? ""] ?? new Uint8Array()))).toBe(true);
    }
    expect(unknownLetters(parts)).toEqual([]);
  }, 60_000);
});

/** A drawing as large as it is said to be. */
function readable(svg: string): boolean {
  return /^<svg [^>]*width="[\d.]+"/.test(svg);
}

/** Letters of the charts that no bundled font holds, so that the picture would show boxes. */
function unknownLetters(parts: Readonly<Record<string, Uint8Array>>): string[] {
  const svgs = Object.keys(parts).filter((name) => name.endsWith(".svg"));
  const texts = svgs.flatMap((name) =>
    [...strFromU8(parts[name] ?? new Uint8Array()).matchAll(/>([^<]+)</g)].map(([, text]) => text),
  );
  const letters = new Set(texts.join(""));
  return [...letters].filter((letter) => !bundledLetters.some((range) => isIn(letter, range)));
}

const subsets = ["latin", "latin-ext", "greek", "cyrillic"];
const bundledLetters = Object.entries(
  JSON.parse(readFileSync("node_modules/@fontsource/source-sans-3/unicode.json", "utf8")) as Record<
    string,
    string
  >,
)
  .filter(([name]) => subsets.includes(name))
  .flatMap(([, ranges]) => ranges.split(","));

function isIn(letter: string, range: string): boolean {
  const [from = 0, to = from] = range
    .replace("U+", "")
    .split("-")
    .map((each) => Number.parseInt(each, 16));
  const code = letter.codePointAt(0) ?? 0;
  return (code >= from && code <= to) || letter === "\n";
}

describe("what is too long for one slide", () => {
  const long = "as many words as a meeting would hardly read aloud to itself ".repeat(60).trim();

  test("a long table goes on over several slides, its title and its head carried on", async () => {
    const rows = Array.from({ length: 60 }, (_, at) => [`action ${at}`, `what ${at} is about`]);
    const slides = await slidesFor({ table: { columns: columns("action", "about"), rows } });
    expect(slides.length).toBeGreaterThan(3);
    expect(slides.flatMap(misfits)).toEqual([]);
    const titles = slides.map((shapes) => shapes[0]?.paragraphs[0]?.text);
    expect(titles).toEqual([
      "Actions",
      ...Array.from({ length: slides.length - 1 }, () => "Actions (continued)"),
    ]);
    const shown = slides.map(tableTexts);
    for (const [head] of shown) expect(head).toEqual(["action", "about"]);
    expect(shown.flatMap((texts) => texts.slice(1))).toEqual(rows);
    const lengths = shown.map((texts) => texts.length);
    expect(Math.min(...lengths)).toBeGreaterThan(Math.max(...lengths) / 2);
  });

  test("a row higher than a slide goes on with its next lines; no word of it is lost", async () => {
    const rows = [
      ["first", long],
      ["second", "short"],
    ];
    const slides = await slidesFor({ table: { columns: columns("action", "about"), rows } });
    expect(slides.flatMap(misfits)).toEqual([]);
    const about = slides.flatMap((shapes) => tableTexts(shapes).slice(1)).map(([, text]) => text);
    expect(about.join(" ")).toBe(`${long} short`);
  });

  test("a table of many columns goes on with the next columns beside its first", async () => {
    const labels = Array.from({ length: 30 }, (_, at) => `technique number ${at}`);
    const rows = [["low", ...labels.map((_, at) => `${at}.5% (1.0 – 12.5)`)]];
    const slides = await slidesFor({ table: { columns: columns("risk", ...labels), rows } });
    expect(slides.length).toBeGreaterThan(1);
    expect(slides.flatMap(misfits)).toEqual([]);
    const heads = slides.map((shapes) => tableTexts(shapes)[0] ?? []);
    for (const [first] of heads) expect(first).toBe("risk");
    expect(heads.flatMap((head) => head.slice(1))).toEqual(labels);
  });

  test("a long list of paragraphs goes on, and of one a paragraph longer than a slide", async () => {
    const body = [long, ...Array.from({ length: 40 }, (_, at) => `Aggregates: file ${at}`)];
    const slides = await slidesFor({ body });
    expect(slides.flatMap(misfits)).toEqual([]);
    const texts = slides.flatMap((shapes) => shapes[1]?.paragraphs.map(({ text }) => text) ?? []);
    expect(texts.join(" ")).toBe(body.join(" "));
  });

  test("cautions for which a foot has no room stand on a slide of their own, every one of them", async () => {
    const foot = Array.from({ length: 30 }, (_, at) => `Caution ${at}: ${long.slice(0, 150)}`);
    const slides = await slidesFor({ body: ["What was found."], foot });
    expect(slides.flatMap(misfits)).toEqual([]);
    const texts = slides.flatMap((shapes) => shapes.flatMap(({ paragraphs }) => paragraphs));
    for (const caution of foot) expect(texts.map(({ text }) => text)).toContain(caution);
  });

  test("a title too long for its box is cut with an ellipsis, and one long word is broken", async () => {
    const slides = await slidesFor({ title: [{ text: long }], body: ["x".repeat(4000)] });
    expect(slides.flatMap(misfits)).toEqual([]);
    const title = slides[0]?.[0]?.paragraphs[0]?.text ?? "";
    expect(title.endsWith("…")).toBe(true);
    expect(long.startsWith(title.slice(0, -1))).toBe(true);
  });
});

function columns(...labels: readonly string[]) {
  return labels.map((label) => ({ label, isText: true }));
}

async function slidesFor(slide: Partial<Slide>): Promise<(readonly ParsedShape[])[]> {
  const whole: Slide = { title: [{ text: "Actions" }], foot: [], notes: "", ...slide };
  return parsedSlides(await deckOf("A meeting", await placeSlide(whole)));
}

function tableTexts(shapes: readonly ParsedShape[]): string[][] {
  const table = shapes.find(({ kind }) => kind === "table");
  return (table?.rows ?? []).map(({ cells }) =>
    cells.map(({ paragraphs }) => paragraphs.map(({ text }) => text).join("\n")),
  );
}
