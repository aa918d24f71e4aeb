import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { literalTexts, wordsInTemplates } from "./words-in-templates.ts";

/** A template as it stands in a source; an at sign stands for the dollar sign of a hole. */
const inBackquotes = (template: string) => `html\`${template.replaceAll("@", "$")}\``;

describe("the words of the page", () => {
  it("all stand in the labels, so that a translation is files of labels", () => {
    expect(wordsInTemplates("src/page")).toEqual([]);
  });

  it("have each a key of their own: one file does not write over another's", () => {
    const files = [
      "src/page/labels.ts",
      ...readdirSync("src/page/labels").map((f) => `src/page/labels/${f}`),
    ];
    const keys = files.flatMap((file) =>
      [...readFileSync(file, "utf8").matchAll(/^ {2}(\w+):/gm)].map(([, key]) => key!),
    );
    expect(keys.filter((key, at) => keys.indexOf(key) !== at)).toEqual([]);
    expect(keys.length).toBeGreaterThan(100);
  });

  it.each([
    [inBackquotes("<p>@{labels.hello}</p>"), []],
    ["html`<p>Hello</p>`", ["Hello"]],
    ['html`<button title="Close it">×</button>`', ["Close it"]],
    [inBackquotes("<p>@{a ? html`<b>Inner</b>` : `{ @{b} }`} · @{c}</p>"), ["Inner"]],
    ['css`.word { color: red }` + html`<p class="word">1</p>`', []],
  ])("%s: %j", (source, texts) => expect(literalTexts(source)).toEqual(texts));
});
