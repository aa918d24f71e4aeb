import { bytesOf } from "../files/zip-files.ts";
import type { Box, PresentationSlide } from "./presentation.ts";
import type { SlidePicture } from "./slide.ts";

/** A drawing with its text alternative, as SVG and as PNG for programs that draw no SVG. */
export function addPicture(slide: PresentationSlide, picture: SlidePicture, box: Box): void {
  slide.addImage({
    data: `data:image/svg+xml;base64,${base64(picture.svg)}`,
    altText: picture.description,
    ...box,
  });
  putDrawn(slide, picture.png ?? clearPoint);
}

/**
 * Puts a drawn picture where the library would draw one itself, which it does only in a window and
 * differently in each, and in Node not at all. It has no call for that: these are its own fields.
 */
function putDrawn(slide: PresentationSlide, png: Uint8Array): void {
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

function base64(content: string | Uint8Array): string {
  let letters = "";
  for (const byte of bytesOf(content)) letters += String.fromCharCode(byte);
  return btoa(letters);
}
