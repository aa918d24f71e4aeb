import { execFileSync } from "node:child_process";
import { readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { builtPage, projectPath } from "./project-path.ts";

/** What the page is built from. */
const sources = ["src", "notebooks", "data-demo", "vite.config.ts", "package.json"];

/** Builds the page once before the tests in the browser, unless it is newer than its sources. */
export default function buildPage(): void {
  if (changedAt(builtPage) > Math.max(...sources.map((source) => newest(projectPath(source))))) {
    return;
  }
  // In a process of its own: what tests set in theirs would make it a build for development.
  execFileSync(process.execPath, [projectPath("node_modules/vite/bin/vite.js"), "build"], {
    cwd: projectPath("."),
    env: { ...process.env, NODE_ENV: "production" },
    stdio: ["ignore", "ignore", "inherit"],
  });
}

function newest(path: string): number {
  if (!statSync(path).isDirectory()) return changedAt(path);
  return Math.max(0, ...readdirSync(path).map((name) => newest(join(path, name))));
}

/** 0 where there is no such file. */
function changedAt(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}
