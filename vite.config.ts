import { createHash } from "node:crypto";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import type { Plugin } from "vite";
import { viteSingleFile } from "vite-plugin-singlefile";
import { defineConfig, type ViteUserConfig } from "vitest/config";

/**
 * The one configuration of building and testing:
 * `vite build` makes the page, one file that holds everything, in dist/page/index.html;
 * `vite build --mode command` makes the command line for Node, dist/command/holdfast.mjs;
 * `vitest` runs the tests, those in the browser on the page as it was built.
 */
export default defineConfig(({ mode }) => {
  if (mode === "test") return tests;
  return mode === "command" ? command : page;
});

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

const page: ViteUserConfig = {
  root: here("./src/page"),
  publicDir: false,
  plugins: [leftOut(), viteSingleFile({ removeViteModuleLoader: true }), packedUnderPolicy()],
  worker: { format: "iife", plugins: () => [leftOut()] },
  build: {
    outDir: here("./dist/page"),
    emptyOutDir: true,
    target: "es2022",
    modulePreload: false,
    reportCompressedSize: false,
  },
  preview: { host: "127.0.0.1", port: 4173 },
};

const command: ViteUserConfig = {
  publicDir: false,
  build: {
    ssr: here("./src/command/holdfast.ts"),
    outDir: here("./dist/command"),
    emptyOutDir: true,
    target: "node20",
    rolldownOptions: { output: { entryFileNames: "holdfast.mjs" } },
  },
};

const tests: ViteUserConfig = {
  test: {
    projects: [
      {
        test: {
          name: "units",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/browser/**"],
          testTimeout: 30_000,
        },
      },
      {
        test: {
          name: "browser",
          include: ["tests/browser/**/*.test.ts"],
          globalSetup: ["tests/browser/build-page.ts"],
          testTimeout: 60_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 15_000 } },
          fileParallelism: false,
        },
      },
    ],
  },
};

/** Parts of libraries that nothing of ours calls, by what they are imported as. */
const unusedParts: readonly { readonly named: RegExp; readonly exports: readonly string[] }[] = [
  {
    // Transforms of vega for maps, trees, networks, word clouds and the like.
    named: /^vega-(crossfilter|force|geo|hierarchy|label|regression|voronoi|wordcloud)$/,
    exports: [],
  },
  // Arquero's reader of expressions and its binary tables: only calls that compile nothing are used.
  { named: /^acorn$/, exports: ["parse"] },
  {
    named: /^@uwdata\/flechette$/,
    exports: [
      "columnFromArray",
      "columnFromValues",
      "tableFromColumns",
      "tableFromIPC",
      "tableToIPC",
    ],
  },
];

/**
 * What the writer of slides asks of its packer, by the packer that everything else of the page
 * uses: a second one would be 32 kB.
 */
const slidePacker = `
import { strToU8, zipSync } from "fflate";
export default class {
  files = {};
  folder() {
    return this;
  }
  file(name, content, { base64 = false } = {}) {
    const letters = base64 ? atob(content) : undefined;
    this.files[name] =
      letters === undefined ? strToU8(content) : Uint8Array.from(letters, (l) => l.charCodeAt(0));
  }
  async generateAsync() {
    return zipSync(this.files, { level: 0 });
  }
}
`;

/** Leaves unused parts out of the page, which is one file. To call one of them is an error. */
function leftOut(): Plugin {
  const prefix = "\0left-out ";
  return {
    name: "left-out",
    enforce: "pre",
    apply: "build",
    resolveId: (source) => {
      if (source === "jszip") return `${prefix}${source}`;
      const position = unusedParts.findIndex(({ named }) => named.test(source));
      return position < 0 ? undefined : `${prefix}${position}`;
    },
    // Pictures that stand for films, which no slide of ours holds: 50 kB.
    transform: (code, id) =>
      id.includes("/pptxgenjs/")
        ? code.replace(/image\/png;base64,[\w+/=]{1000,}/g, "")
        : undefined,
    load: (id) => {
      if (!id.startsWith(prefix)) return undefined;
      if (id.endsWith("jszip")) return slidePacker;
      const { exports = [] } = unusedParts[Number(id.slice(prefix.length))] ?? {};
      const names = exports.map((name) => `refuse as ${name}`);
      return `function refuse() { throw new Error("left out of this build"); }
        export { ${names.join(", ")} };`;
    },
  };
}

/**
 * Makes the built page small and safe: the program is kept compressed, and the content security
 * policy allows no connection at all and no script but the two by their hashes, the one that
 * unpacks and the program itself. Both are written after everything was put into one file.
 */
function packedUnderPolicy(): Plugin {
  return {
    name: "packed-under-policy",
    enforce: "post",
    apply: "build",
    generateBundle: {
      order: "post",
      handler(_options, bundle) {
        for (const file of Object.values(bundle)) {
          if (file.type !== "asset" || !file.fileName.endsWith(".html")) continue;
          file.source = packed(String(file.source));
        }
      },
    },
  };
}

/** Signs that need no care in a page: five of them hold four bytes, which base 64 needs six for. */
const signs =
  "!#%()*+,-./0123456789:;=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_abcdefghijklmnopqrstuvwxyz{|}".slice(
    0,
    85,
  );

/** Bytes as text, the last four filled up with zeros. */
function inSigns(bytes: Uint8Array): string {
  const filled = new Uint8Array(Math.ceil(bytes.length / 4) * 4);
  filled.set(bytes);
  const view = new DataView(filled.buffer);
  let text = "";
  for (let at = 0; at < filled.length; at += 4) {
    let five = "";
    for (let n = view.getUint32(at), k = 0; k < 5; k++, n = Math.floor(n / 85)) {
      five = signs[n % 85] + five;
    }
    text += five;
  }
  return text;
}

/** Runs in the page before anything else. */
const unpack = `
const packed = document.getElementById("program");
const text = packed.textContent;
const worth = new Uint8Array(128);
[..."${signs}"].forEach((sign, n) => { worth[sign.charCodeAt(0)] = n; });
const bytes = new DataView(new ArrayBuffer((text.length / 5) * 4));
for (let i = 0, at = 0; i < text.length; at += 4) {
  let n = 0;
  for (let k = 0; k < 5; k++) n = n * 85 + worth[text.charCodeAt(i++)];
  bytes.setUint32(at, n);
}
const program = document.createElement("script");
program.type = "module";
const gzip = new Blob([bytes.buffer]).slice(0, Number(packed.dataset.bytes));
const unpacked = gzip.stream().pipeThrough(new DecompressionStream("gzip"));
program.textContent = await new Response(unpacked).text();
packed.replaceWith(program);
`;

/** The program as it is kept in the page. */
export function kept(program: string): string {
  const data = gzipSync(program, { level: 9 });
  return `<script type="text/plain" id="program" data-bytes="${data.length}">${inSigns(data)}</script>`;
}

function packed(html: string): string {
  const [element, program] = /<script type="module"[^>]*>([\s\S]*?)<\/script>/.exec(html) ?? [];
  if (element === undefined || program === undefined) throw new Error("the page has no program");
  const policy = [
    "default-src 'none'",
    "connect-src 'none'",
    "img-src data: blob:",
    "font-src data:",
    "style-src 'unsafe-inline'",
    // the statistics' inner loops are WebAssembly, which reaches nothing that it is not handed
    `script-src ${[unpack, program].map(hashOf).join(" ")} 'wasm-unsafe-eval'`,
    "worker-src blob:",
    "form-action 'none'",
    "base-uri 'none'",
  ].join("; ");
  const meta = `<meta http-equiv="Content-Security-Policy" content="${policy}" />`;
  const scripts = `${kept(program)}
    <script type="module">${unpack}</script>`;
  return html
    .replace(element, "")
    .replace("<head>", () => `<head>\n    ${meta}`)
    .replace("</body>", () => `  ${scripts}\n  </body>`);
}

function hashOf(script: string): string {
  return `'sha256-${createHash("sha256").update(script).digest("base64")}'`;
}
