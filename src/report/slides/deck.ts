import { paperPalette } from "../../charts/palette.ts";
import { addPicture } from "./deck-picture.ts";
import { addTable } from "./deck-table.ts";
import { fixedPresentation } from "./fixed-presentation.ts";
import { asksPoints, bodyPoints, footPoints } from "./place-slide.ts";
import {
  newPresentation,
  type Presentation,
  type SlideMaster,
  type TextLook,
  type TextPart,
} from "./presentation.ts";
import type { Place, PlacedSlide } from "./slide.ts";
import { places } from "./slide-room.ts";
import { lineSpacing } from "./text-fit.ts";

const serif = "Source Serif 4";
const sans = "Source Sans 3";
const ink = hex(paperPalette.ink);
const muted = hex(paperPalette.muted);

/** The slides as an Office Open XML presentation; the same slides give the same bytes. */
export async function deckOf(title: string, slides: readonly PlacedSlide[]): Promise<Uint8Array> {
  const deck = newPresentation();
  deck.layout = "LAYOUT_WIDE";
  deck.theme = { headFontFace: serif, bodyFontFace: sans };
  Object.assign(deck, { title, subject: title, author: "Holdfast", company: "Holdfast" });
  deck.defineSlideMaster(finding);
  for (const slide of slides) await addSlide(deck, slide);
  const written = await deck.write({ outputType: "uint8array" });
  if (!(written instanceof Uint8Array))
    throw new Error("the presentation was not written as bytes");
  return fixedPresentation(written);
}

/** The title is a placeholder, so that a screen reader and the outline know each slide by it. */
const finding: SlideMaster = {
  title: "Finding",
  background: { color: hex(paperPalette.paper) },
  objects: [
    {
      placeholder: {
        options: {
          ...{ name: "title", type: "title", ...boxOf(places.title), margin: 0 },
          ...{ fontFace: serif, fontSize: 24, color: ink, align: "left", valign: "top" },
        },
        text: "",
      },
    },
  ],
  slideNumber: {
    ...{ ...boxOf(places.number), margin: 0, fontFace: sans, fontSize: 10, color: muted },
    align: "right",
  },
};

async function addSlide(deck: Presentation, placed: PlacedSlide): Promise<void> {
  const { asks, title, body, picture, table, foot, notes } = placed;
  const slide = deck.addSlide({ masterName: "Finding" });
  slide.addText(runs(title), { placeholder: "title" });
  if (asks !== undefined) {
    slide.addText(asks, { ...text(places.asks, asksPoints), color: muted, valign: "bottom" });
  }
  if (body !== undefined) slide.addText(paragraphs(body.paragraphs), text(body, bodyPoints));
  if (picture !== undefined) addPicture(slide, picture.picture, boxOf(picture));
  if (table !== undefined) addTable(slide, table.table, { ...table, fontFace: sans });
  if (foot !== undefined) {
    const look = { ...text(foot, footPoints), color: muted, valign: "bottom" } as const;
    slide.addText(paragraphs(foot.paragraphs), look);
  }
  slide.addNotes(notes);
}

function text(place: Place, points: number): TextLook {
  return {
    ...{ ...boxOf(place), ...lettering(points), fontFace: sans, color: ink },
    ...{ valign: "top", align: "left", margin: 0, lang: "en-GB" },
  };
}

/** Lines are set at a distance in points, so that they are as high in any face. */
function lettering(points: number) {
  return { fontSize: points, lineSpacing: points * lineSpacing } as const;
}

function boxOf({ x, y, width, height }: Place) {
  return { x, y, w: width, h: height } as const;
}

function paragraphs(texts: readonly string[]): TextPart[] {
  return texts.map((each) => ({ text: each, options: { breakLine: true } }));
}

/** The placeholder's size of letters outdoes that of the whole text, and not that of its parts. */
function runs({ runs: parts, points }: PlacedSlide["title"]): TextPart[] {
  return parts.map(({ text: words, role }) => ({
    text: words,
    options: {
      ...lettering(points),
      ...(role === undefined ? {} : { color: hex(paperPalette[role]), bold: true }),
    },
  }));
}

/** "#a4481a" as "A4481A". */
function hex(colour: string): string {
  return colour.slice(1).toUpperCase();
}
