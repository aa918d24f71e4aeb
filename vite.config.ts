import { createHash } from "node:crypto";
import { fileURLToPath } from "node:url";
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
  plugins: [leftOut(), viteSingleFile({ removeViteModuleLoader: true }), contentPolicy()],
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

/** Leaves unused parts out of the page, which is one file. To call one of them is an error. */
function leftOut(): Plugin {
  const prefix = "\0left-out ";
  return {
    name: "left-out",
    enforce: "pre",
    apply: "build",
    resolveId: (source) => {
      const position = unusedParts.findIndex(({ named }) => named.test(source));
      return position < 0 ? undefined : `${prefix}${position}`;
    },
    load: (id) => {
      if (!id.startsWith(prefix)) return undefined;
      const { exports = [] } = unusedParts[Number(id.slice(prefix.length))] ?? {};
      const names = exports.map((name) => `refuse as ${name}`);
      return `function refuse() { throw new Error("left out of this build"); }
        export { ${names.join(", ")} };`;
    },
  };
}

/**
 * Writes the content security policy into the built page: no connection at all, and no script
 * but the one that is in it, by its hash, which is taken after everything was put into one file.
 */
function contentPolicy(): Plugin {
  return {
    name: "content-policy",
    enforce: "post",
    apply: "build",
    generateBundle: {
      order: "post",
      handler(_options, bundle) {
        for (const file of Object.values(bundle)) {
          if (file.type !== "asset" || !file.fileName.endsWith(".html")) continue;
          file.source = withPolicy(String(file.source));
        }
      },
    },
  };
}

function withPolicy(html: string): string {
  const scripts = [...html.matchAll(/<script[^>]*>([\s\S]*?)<\/script>/g)];
  const hashes = scripts.map(([, code]) => {
    return `'sha256-${createHash("sha256")
      .update(code ?? "")
      .digest("base64")}'`;
  });
  const policy = [
    "default-src 'none'",
    "connect-src 'none'",
    "img-src data: blob:",
    "font-src data:",
    "style-src 'unsafe-inline'",
    `script-src ${hashes.join(" ")}`,
    "worker-src blob:",
    "form-action 'none'",
    "base-uri 'none'",
  ].join("; ");
  const meta = `<meta http-equiv="Content-Security-Policy" content="${policy}" />`;
  return html.replace("<head>", () => `<head>\n    ${meta}`);
}
