import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { kept } from "../../vite.config.ts";
import { demoNotebook } from "./node-session.ts";
import { cell, drop } from "./opened-page.ts";
import { builtPage } from "./project-path.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** The program as it is kept in the page. */
const packed = /<script type="text\/plain" id="program" data-bytes="(\d+)">([^<]+)<\/script>/;

function programIn(page: string): string {
  const [, bytes = "", text = ""] = packed.exec(page) ?? [];
  const signs = /\[\.\.\."([^"]+)"\]/.exec(page)?.[1] ?? "";
  const view = new DataView(new ArrayBuffer((text.length / 5) * 4));
  for (let at = 0, i = 0; i < text.length; at += 4) {
    let four = 0;
    for (let k = 0; k < 5; k++) four = four * 85 + signs.indexOf(text[i++]!);
    view.setUint32(at, four);
  }
  return gunzipSync(new Uint8Array(view.buffer, 0, Number(bytes))).toString();
}

/** The page with a program that does all that its own does, and one thing more. */
function withAlteredProgram(page: string): string {
  return page.replace(packed, () => kept(`${programIn(page)};window.altered = true`));
}

describe("the built page", () => {
  const html = readFileSync(builtPage, "utf8");

  it("is one file with a policy that allows no connection and no evaluation", () => {
    const policy = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(html)?.[1];
    expect(policy?.split("; ").filter((part) => !part.startsWith("script-src"))).toEqual([
      "default-src 'none'",
      "connect-src 'none'",
      "img-src data: blob:",
      "font-src data:",
      "style-src 'unsafe-inline'",
      "worker-src blob:",
      "form-action 'none'",
      "base-uri 'none'",
    ]);
    // WebAssembly may be compiled, text may not
    expect(policy).toMatch(/script-src( 'sha256-[A-Za-z0-9+/]+={0,2}'){2} 'wasm-unsafe-eval'(;|$)/);
    expect(policy).not.toContain("'unsafe-eval'");
    expect(html.replace(/<script[\s\S]*?<\/script>/g, "")).not.toMatch(/(src|href)="(?!data:)/);
  });

  it.each([
    ["the script that unpacks", (page: string) => page.replace("const packed =", "let packed =")],
    ["the program", withAlteredProgram],
  ])(
    "does not run when altered: %s",
    async (_, altered) => {
      const folder = mkdtempSync(join(tmpdir(), "holdfast-altered-"));
      const file = join(folder, "index.html");
      expect(altered(html)).not.toBe(html);
      writeFileSync(file, altered(html));
      await expect(open({ file })).rejects.toThrow();
    },
    60_000,
  );

  it("lets nothing out, and evaluates nothing", async () => {
    const { page, complaints } = await open();
    const reached = await page.evaluate(() =>
      fetch("http://127.0.0.1:9/").then(
        () => "out",
        () => "refused",
      ),
    );
    expect(reached).toBe("refused");
    const made = await page.evaluate(() => {
      const script = document.createElement("script");
      script.textContent = "window.let_in = true";
      document.head.append(script);
      return "let_in" in window;
    });
    expect(made).toBe(false);
    const refusals = complaints.splice(0);
    expect(refusals.filter((text) => !text.includes("Content Security Policy"))).toEqual([]);
    expect(refusals.join()).toMatch(/connect-src/);
    expect(refusals.join()).toMatch(/script-src/);
  });
});

describe("text of a notebook", () => {
  it("never becomes markup, a link or a script", async () => {
    const { page } = await open();
    const markup = '<img src="x" onerror="window.hit = true"> <a href="https://example.org">go</a>';
    const text = demoNotebook
      .replace("Change a setting", `${markup} [go](javascript:alert(1))`)
      .replace(/^title: .*$/m, "title: '<b>Unit</b>'");
    await drop(page, "hostile.md", text);
    await page.locator("h1", { hasText: "<b>Unit</b>" }).waitFor();
    await cell(page, "how_often").waitFor();
    expect(await page.locator("prose-block p").first().textContent()).toContain("onerror");
    expect(await page.locator("prose-block img, prose-block a, h1 b").count()).toBe(0);
    expect(await page.evaluate(() => "hit" in window)).toBe(false);
  });
});
