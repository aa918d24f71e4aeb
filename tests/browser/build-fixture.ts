import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "vite";
import { viteSingleFile } from "vite-plugin-singlefile";
import { projectPath } from "./project-path.ts";

/** Builds the page with a fixed sheet, every cell in another state, and gives its file. */
export async function buildFixture(): Promise<string> {
  const outDir = mkdtempSync(join(tmpdir(), "holdfast-fixture-"));
  await build({
    configFile: false,
    root: projectPath("tests/browser/fixture"),
    logLevel: "warn",
    mode: "production",
    resolve: { conditions: ["module", "browser", "production"] },
    plugins: [viteSingleFile({ removeViteModuleLoader: true })],
    build: { outDir, target: "es2022", modulePreload: false, minify: false },
  });
  return join(outDir, "index.html");
}
