import { expect, test } from "vitest";
import { pngDrawer } from "../../src/command/draw-png.ts";

const speaker = {
  ...{ say: () => {}, isTerminal: false, today: 20_543 },
  warn: (text: string) => {
    throw new Error(text);
  },
};

const text = (words: string, style = "") =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="300" height="40"><text x="5" y="28"
font-size="20" ${style}>${words}</text></svg>`;

/** From the header of a PNG (ISO/IEC 15948): width and height in bytes 16 to 23. */
function sizeOf(png: Uint8Array): [number, number] {
  const view = new DataView(png.buffer, png.byteOffset);
  return [view.getUint32(16), view.getUint32(20)];
}

test("texts are drawn, in the fonts of the page whatever family is asked for", async () => {
  const draw = await pngDrawer(speaker);
  const [empty, words, other, bold] = await Promise.all([
    draw(text(""), 2),
    draw(text("attached 91.8% (82.7 – 96.2)", 'font-family="Source Sans 3"'), 2),
    draw(text("attached 91.8% (82.7 – 96.2)", 'font-family="a font of nobody, sans-serif"'), 2),
    draw(text("attached 91.8% (82.7 – 96.2)", 'font-weight="600"'), 2),
  ]);
  expect(sizeOf(words ?? new Uint8Array(24))).toEqual([600, 80]);
  expect(words).not.toEqual(empty);
  expect(other).toEqual(words);
  expect(bold).not.toEqual(words);
});

test.each(["Łódź", "Ωμέγα", "техника"])("letters of %s are drawn, not left out", async (name) => {
  const draw = await pngDrawer(speaker);
  const drawn = await draw(text(name), 1);
  expect(drawn).not.toEqual(await draw(text(""), 1));
  expect(drawn).not.toEqual(await draw(text([...name].reverse().join("")), 1));
});
