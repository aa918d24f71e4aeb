import { describe, expect, it } from "vitest";
import { fitText, textWidth, wrapText } from "../../src/charts/text-width.ts";
import { fontFamily } from "../../src/charts/theme.ts";
import { openBrowser } from "../browser/open-browser.ts";
import { bundledFontCss } from "./bundled-font.ts";

const samples = [
  "vitrectomy with buckle 79%",
  "eyes still attached and followed",
  "0123456789 (12) 100% 8.1 – 16.8",
  "proliferative vitreoretinopathy",
  "Łódź, Győr, Šibenik, Ærø",
  "WAVE To. LT",
];

describe("text width", () => {
  it("has all digits equally wide", () => {
    const widths = Array.from("0123456789", (digit) => textWidth(digit, { size: 100 }));
    expect(new Set(widths).size).toBe(1);
  });

  it("grows with size and is nothing for nothing", () => {
    expect(textWidth("buckle", { size: 26 })).toBeCloseTo(
      2 * textWidth("buckle", { size: 13 }),
      10,
    );
    expect(textWidth("", { size: 13 })).toBe(0);
  });

  it("guesses for other fonts: an em for wide scripts, nothing for combining marks", () => {
    expect(textWidth("網膜", { size: 10 })).toBe(20);
    expect(textWidth("e\u0301", { size: 10 })).toBe(textWidth("e", { size: 10 }));
    expect(textWidth("ж", { size: 10 })).toBe(6);
  });
});

describe("fitting", () => {
  const room = { size: 13, width: 80 };

  it("keeps what fits and cuts the rest with an ellipsis", () => {
    expect(fitText("buckle", room)).toBe("buckle");
    const cut = fitText("vitrectomy with buckle", room);
    expect(cut).toMatch(/^vitrectomy.*…$/);
    expect(textWidth(cut, room)).toBeLessThanOrEqual(80);
  });

  it("breaks between words and loses none while there are lines", () => {
    expect(wrapText("vitrectomy with buckle", 2, room)).toEqual(["vitrectomy", "with buckle"]);
  });

  it("breaks a word that is longer than a line, within the room", () => {
    const lines = wrapText("x".repeat(200), 2, room);
    expect(lines).toHaveLength(2);
    for (const line of lines) expect(textWidth(line, room)).toBeLessThanOrEqual(80);
    expect(lines[1]).toMatch(/…$/);
  });

  it("ends also where not one character fits", () => {
    expect(wrapText("wide words", 2, { size: 13, width: 1 })).toHaveLength(2);
  });
});

/** Needs Chromium (`CHROMIUM` or /usr/bin/chromium); left out without. */
describe("against Chromium, with kerning", () => {
  it.each([400, 600])(
    "is at most 2 px or 5% too wide and never too narrow, weight %i",
    async (weight) => {
      const browser = await openBrowser();
      const page = await browser.newPage();
      await page.setContent(`<style>${bundledFontCss()}
      text { font: ${weight} 13px ${fontFamily}; font-variant-numeric: tabular-nums }</style>
      <svg>${samples.map((text) => `<text>${text}</text>`).join("")}</svg>`);
      await page.evaluate(() => document.fonts.ready);
      const measured = await page.$$eval("text", (all) =>
        all.map((text) => (text as SVGTextElement).getComputedTextLength()),
      );
      await browser.close();
      samples.forEach((text, i) => {
        const excess = textWidth(text, { size: 13, weight }) - measured[i]!;
        expect(excess, text).toBeGreaterThan(-0.3);
        expect(excess, text).toBeLessThan(Math.max(2, 0.05 * measured[i]!));
      });
    },
  );
});
