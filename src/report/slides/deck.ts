import PptxGenJS from "pptxgenjs";
import { paperPalette } from "../../charts/palette.ts";
import { bytesOf } from "../files/zip-files.ts";
import { fixedPresentation } from "./fixed-presentation.ts";
import type { Slide, SlideTable, TextRun } from "./slide.ts";

/** The sheet of a slide in inches: 16 to 9. */
const sheet = { width: 13.333, height: 7.5, margin: 0.5 } as const;
const across = sheet.width - 2 * sheet.margin;
const serif = "Source Serif 4";
const sans = "Source Sans 3";
const ink = hex(paperPalette.ink);
const muted = hex(paperPalette.muted);

/** The slides as an Office Open XML presentation; the same slides give the same bytes. */
export async function deckOf(title: string, slides: readonly Slide[]): Promise<Uint8Array> {
  const deck = new PptxGenJS();
  deck.layout = "LAYOUT_WIDE";
  deck.theme = { headFontFace: serif, bodyFontFace: sans };
  Object.assign(deck, { title, subject: title, author: "Holdfast", company: "Holdfast" });
  deck.defineSlideMaster(finding);
  for (const slide of slides) addSlide(deck, slide);
  const written = await deck.write({ outputType: "uint8array" });
  if (!(written instanceof Uint8Array))
    throw new Error("the presentation was not written as bytes");
  return fixedPresentation(written);
}

/** The title is a placeholder, so that a screen reader and the outline know each slide by it. */
const finding: PptxGenJS.SlideMasterProps = {
  title: "Finding",
  background: { color: hex(paperPalette.paper) },
  objects: [
    {
      placeholder: {
        options: {
          ...{ name: "title", type: "title", x: sheet.margin, y: 0.3, w: across, h: 0.95 },
          ...{ fontFace: serif, fontSize: 24, color: ink, align: "left", valign: "middle" },
        },
        text: "",
      },
    },
  ],
  slideNumber: { x: 12.5, y: 7.1, fontFace: sans, fontSize: 10, color: muted },
};

function addSlide(deck: PptxGenJS, { title, body, picture, table, foot, notes }: Slide): void {
  const slide = deck.addSlide({ masterName: "Finding" });
  slide.addText(runs(title), { placeholder: "title" });
  const footHeight = heightOfFoot(foot);
  const bottom = 7.1 - footHeight;
  const room = { y: 1.35, h: bottom - 1.4 };
  if (body !== undefined) slide.addText(runs(body), { ...plainText, ...room });
  const isSplit = picture !== undefined && table !== undefined;
  if (picture !== undefined) addPicture(slide, picture, { ...room, w: isSplit ? 7.6 : across });
  if (table !== undefined) addTable(slide, table, { ...room, x: isSplit ? 8.3 : sheet.margin });
  if (foot.length > 0) {
    const place = { x: sheet.margin, y: bottom, w: across, h: footHeight };
    const look = { fontFace: sans, fontSize: 10, color: muted, valign: "bottom", margin: 0 };
    slide.addText(foot.join("\n"), { ...place, ...look } as PptxGenJS.TextPropsOptions);
  }
  slide.addNotes(notes);
}

const plainText: PptxGenJS.TextPropsOptions = {
  ...{ x: sheet.margin, w: across, fontFace: sans, fontSize: 16, color: ink },
  ...{ valign: "top", align: "left", margin: 0, paraSpaceAfter: 6 },
};

/** In inches: lines of about 190 letters, at ten points. */
function heightOfFoot(foot: readonly string[]): number {
  return 0.18 * foot.reduce((lines, text) => lines + Math.ceil(text.length / 190), 0);
}

/** As large as the room allows, in the proportions it was drawn in. */
function addPicture(
  slide: PptxGenJS.Slide,
  picture: NonNullable<Slide["picture"]>,
  { y, h, w }: { readonly y: number; readonly h: number; readonly w: number },
): void {
  const scale = Math.min(w / picture.width, h / picture.height);
  slide.addImage({
    data: `data:image/svg+xml;base64,${base64(picture.svg)}`,
    altText: picture.description,
    ...{ x: sheet.margin, y, w: picture.width * scale, h: picture.height * scale },
  });
  putDrawn(slide, picture.png ?? clearPoint);
}

/**
 * Puts a drawn picture where the library would draw one itself, which it does only in a window and
 * differently in each, and in Node not at all. It has no call for that: these are its own fields.
 */
function putDrawn(slide: PptxGenJS.Slide, png: Uint8Array): void {
  const { _relsMedia: media } = slide as unknown as {
    readonly _relsMedia: { isSvgPng?: boolean; data: string }[];
  };
  const preview = media.findLast(({ isSvgPng }) => isSvgPng === true);
  if (preview === undefined) throw new Error("a slide has no place for the drawn picture");
  Object.assign(preview, { isSvgPng: false, data: `image/png;base64,${base64(png)}` });
}

/** A clear point of one pixel, for programs that draw no SVG where no PNG could be drawn. */
const clearPoint = Uint8Array.from(
  atob(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==",
  ),
  (letter) => letter.charCodeAt(0),
);

function addTable(
  slide: PptxGenJS.Slide,
  { columns, rows }: SlideTable,
  { x, y }: { readonly x: number; readonly y: number },
): void {
  const rule = { type: "solid", pt: 0.5, color: hex(paperPalette.hairline) } as const;
  const none = { type: "none" } as const;
  const border: [typeof none, typeof none, typeof rule, typeof none] = [none, none, rule, none];
  const cell = (text: string, at: number, bold: boolean): PptxGenJS.TableCell => ({
    text,
    options: { bold, align: columns[at]?.isText === false ? "right" : "left", border },
  });
  const head = columns.map(({ label }, at) => cell(label, at, true));
  const lines = rows.map((row) => row.map((text, at) => cell(text, at, false)));
  const look = { fontFace: sans, fontSize: 12, color: ink, autoPage: false, lang: "en-GB" };
  const width = sheet.width - sheet.margin - x;
  slide.addTable([head, ...lines], { x, y, w: width, ...look, margin: 0.05 });
}

function runs(parts: readonly TextRun[]): PptxGenJS.TextProps[] {
  return parts.map(({ text, role, endsLine }) => ({
    text,
    options: {
      ...(role === undefined ? {} : { color: hex(paperPalette[role]), bold: true }),
      ...(endsLine === true ? { breakLine: true } : {}),
    },
  }));
}

/** "#a4481a" as "A4481A". */
function hex(colour: string): string {
  return colour.slice(1).toUpperCase();
}

function base64(content: string | Uint8Array): string {
  let letters = "";
  for (const byte of bytesOf(content)) letters += String.fromCharCode(byte);
  return btoa(letters);
}
