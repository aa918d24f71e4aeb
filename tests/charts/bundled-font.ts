import { readFileSync } from "node:fs";

/** Style sheet that brings the bundled sans, western and central European characters. */
export function bundledFontCss(): string {
  const folder = "node_modules/@fontsource-variable/source-sans-3";
  const css = readFileSync(`${folder}/index.css`, "utf8");
  return ["latin", "latin-ext"]
    .map((subset) => {
      const file = readFileSync(`${folder}/files/source-sans-3-${subset}-wght-normal.woff2`);
      const block = css.slice(css.indexOf(`/* source-sans-3-${subset}-wght-normal */`));
      const range = /unicode-range: ([^;]+);/.exec(block)?.[1];
      return `@font-face { font-family: "Source Sans 3 Variable"; font-weight: 200 900;
        unicode-range: ${range};
        src: url(data:font/woff2;base64,${file.toString("base64")}) format("woff2"); }`;
    })
    .join("\n");
}
