import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { html } from "../../src/report/markup.ts";
import { headingMarkup, proseMarkup } from "../../src/report/prose-markup.ts";

describe("markup", () => {
  test("whatever is put in stands as text", () => {
    expect(html`<p title="${'"x"'}">${"<b>&'"}${3}${undefined}</p>`.text).toBe(
      '<p title="&quot;x&quot;">&lt;b&gt;&amp;&#39;3</p>',
    );
    expect(html`<ul>${["a", html`<li>b</li>`]}</ul>`.text).toBe("<ul>a<li>b</li></ul>");
  });

  test("no text opens a tag, in prose or in a heading", () => {
    const tags = /<(?!\/?(?:p|h2|h3|ul|ol|li|em|strong|code|blockquote)>)/;
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 200 }), (text) => {
        const prose = proseMarkup(text)
          .map((each) => each.text)
          .join("");
        expect(prose).not.toMatch(tags);
        expect(headingMarkup(2, text).text).not.toMatch(tags);
      }),
      { numRuns: 500, seed: 7 },
    );
    expect(proseMarkup("a <script>x</script> [b](javascript:c)")[0]?.text).toBe(
      "<p>a &lt;script&gt;x&lt;/script&gt; b</p>\n",
    );
  });
});
