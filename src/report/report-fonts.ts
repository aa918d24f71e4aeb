import sans from "@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2?inline";
import serif from "@fontsource-variable/source-serif-4/files/source-serif-4-latin-wght-normal.woff2?inline";

/** The two faces of the report, in the file itself, so that it looks the same on every machine. */
export const reportFonts = [
  face("Source Sans 3 Variable", sans),
  face("Source Serif 4 Variable", serif),
].join("\n");

function face(family: string, data: string): string {
  return `@font-face { font-family: "${family}"; font-weight: 200 900; src: url(${data}) format("woff2"); }`;
}
