import type { DrawPng } from "../../report/files/chart-picture.ts";

/** Draws an SVG in the type of the page, at a scale of its own size. */
export async function pngOf(svg: string, scale: number): Promise<Blob> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(inOwnType(svg))}`;
  await image.decode();
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(image.naturalWidth * scale);
  canvas.height = Math.round(image.naturalHeight * scale);
  const context = canvas.getContext("2d");
  if (context === null) throw new Error("this browser draws no images");
  context.drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((done, fail) => {
    canvas.toBlob(
      (blob) => (blob === null ? fail(new Error("no image")) : done(blob)),
      "image/png",
    );
  });
}

/** The same as bytes, for the files of a report. */
export const drawPng: DrawPng = async (svg, scale) =>
  new Uint8Array(await (await pngOf(svg, scale)).arrayBuffer());

/** A drawing with the type it is set in, which it finds nowhere else once it stands alone. */
export function inOwnType(svg: string): string {
  return svg.replace(/^<svg[^>]*>/, (tag) => `${tag}<style>${bundledFaces()}</style>`);
}

/** The faces of the page's sans, which are in the page. */
function bundledFaces(): string {
  return [...document.styleSheets]
    .flatMap((sheet) => [...sheet.cssRules])
    .filter((rule) => rule instanceof CSSFontFaceRule && rule.cssText.includes("Source Sans"))
    .map((rule) => rule.cssText)
    .join("");
}
