import type { DrawPng } from "../report/files/chart-picture.ts";
import { chartFonts } from "./chart-fonts.ts";
import type { Surroundings } from "./exit.ts";

const family = "Source Sans 3";

/**
 * Draws by a library that has a part for each kind of machine; where that is not there, says so
 * once and draws nothing. Texts are drawn in the fonts of the page and no others, so that a picture
 * is the same on every machine.
 */
export async function pngDrawer(speaker: Surroundings): Promise<DrawPng> {
  try {
    const { Resvg } = await import("@resvg/resvg-js");
    const font = {
      ...{ loadSystemFonts: false, fontFiles: await chartFonts() },
      ...{ defaultFontFamily: family, sansSerifFamily: family },
    };
    return async (svg, scale) =>
      new Resvg(svg, { font, fitTo: { mode: "zoom", value: scale } }).render().asPng();
  } catch (refusal) {
    const why = refusal instanceof Error ? refusal.message : String(refusal);
    speaker.warn(`Pictures are not drawn as PNG on this machine, only as SVG (${why}).\n`);
    return async () => undefined;
  }
}
