import { strFromU8, unzipSync } from "fflate";

/** What is drawn on a slide, in inches (914,400 EMU are one, ISO/IEC 29500-1). */
export interface ParsedShape {
  readonly kind: "text" | "picture" | "table";
  readonly name: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly paragraphs: readonly ParsedParagraph[];
  /** Of a picture: its text alternative, and the parts that it shows. */
  readonly description: string;
  readonly pictures: readonly string[];
  /** Of a table. */
  readonly columnWidths: readonly number[];
  readonly rows: readonly ParsedRow[];
}

export interface ParsedParagraph {
  readonly text: string;
  readonly points: number;
  /** The distance of its lines, points. */
  readonly lineSpacing: number;
  readonly isBold: boolean;
  readonly face: string;
}

export interface ParsedRow {
  readonly height: number;
  readonly cells: readonly {
    readonly paragraphs: readonly ParsedParagraph[];
    /** Left, right, top and bottom, inches. */
    readonly margins: readonly [number, number, number, number];
  }[];
}

/** The slides of a presentation in their order, with the shapes that stand on each. */
export function parsedSlides(presentation: Uint8Array): (readonly ParsedShape[])[] {
  const parts = unzipSync(presentation);
  const text = (name: string) => strFromU8(parts[name] ?? new Uint8Array());
  const count = Object.keys(parts).filter((name) => /slides\/slide\d+\.xml$/.test(name)).length;
  return Array.from({ length: count }, (_, at) => {
    const xml = text(`ppt/slides/slide${at + 1}.xml`);
    const links = new Map(
      all(
        text(`ppt/slides/_rels/slide${at + 1}.xml.rels`),
        /Id="([^"]+)"[^>]*? Target="\.\.\/([^"]+)"/g,
      ).map(([, id = "", target = ""]) => [id, `ppt/${target}`]),
    );
    return all(xml, /<p:(sp|pic|graphicFrame)>.*?<\/p:\1>/gs).map(([shape]) =>
      parsedShape(shape, links),
    );
  });
}

function parsedShape(xml: string, links: ReadonlyMap<string, string>): ParsedShape {
  const [, x, y] = /<a:off x="(-?\d+)" y="(-?\d+)"/.exec(xml) ?? [];
  const [, width, height] = /<a:ext cx="(\d+)" cy="(\d+)"/.exec(xml) ?? [];
  const kind = xml.includes("<a:tbl>") ? "table" : xml.includes("<a:blip ") ? "picture" : "text";
  return {
    ...{ kind, x: inches(x), y: inches(y), width: inches(width), height: inches(height) },
    name: /<p:cNvPr [^>]*name="([^"]*)"/.exec(xml)?.[1] ?? "",
    description: /<p:cNvPr [^>]*descr="([^"]*)"/.exec(xml)?.[1] ?? "",
    pictures: all(xml, /r:embed="([^"]+)"/g).map(([, id = ""]) => links.get(id) ?? ""),
    paragraphs: kind === "text" ? paragraphsOf(xml) : [],
    columnWidths: all(xml, /<a:gridCol w="(\d+)"/g).map(([, each]) => inches(each)),
    rows: all(xml, /<a:tr h="(\d+)">(.*?)<\/a:tr>/gs).map(([, high, row = ""]) => ({
      height: inches(high),
      cells: all(row, /<a:tc>.*?<\/a:tc>/gs).map(([cell]) => ({
        paragraphs: paragraphsOf(cell),
        margins: marginsOf(cell),
      })),
    })),
  };
}

/** Single spacing is the face's own: of the bundled sans, 1.424 of its size (its metrics). */
const single = 1.424;

function paragraphsOf(xml: string): ParsedParagraph[] {
  return all(xml, /<a:p>(.*?)<\/a:p>/gs).map(([, inner = ""]) => {
    const texts = all(inner, /<a:t>([^<]*)<\/a:t>/g).map(([, each = ""]) => plain(each));
    const number = (pattern: RegExp) =>
      Number((pattern.exec(inner) ?? pattern.exec(xml))?.[1]) / 100;
    const points = number(/ sz="(\d+)"/);
    const spacing = /<a:spcPts val="(\d+)"/.exec(inner)?.[1];
    return {
      text: texts.join(""),
      points,
      lineSpacing: spacing === undefined ? points * single : Number(spacing) / 100,
      isBold: / b="1"/.test(inner),
      face: /<a:latin typeface="([^"]*)"/.exec(inner)?.[1] ?? "",
    };
  });
}

function marginsOf(cell: string): [number, number, number, number] {
  const side = (name: string) => inches(new RegExp(` mar${name}="(\\d+)"`).exec(cell)?.[1]);
  return [side("L"), side("R"), side("T"), side("B")];
}

function inches(units: string | undefined): number {
  return Number(units) / 914_400;
}

function all(text: string, pattern: RegExp): RegExpExecArray[] {
  return [...text.matchAll(pattern)];
}

/** A text of XML as it reads. */
export function plain(text: string): string {
  return text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&apos;", "'")
    .replaceAll("&amp;", "&");
}
