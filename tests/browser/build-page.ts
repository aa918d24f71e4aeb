import { execFileSync } from "node:child_process";
import { mkdirSync, readdirSync, renameSync, rmSync, statSync, utimesSync } from "node:fs";
import { dirname, join } from "node:path";
import { builtPage, projectPath } from "./project-path.ts";
import { whileLocked } from "./while-locked.ts";

/** What the page is built from. */
const sources = ["src", "notebooks", "data-demo", "vite.config.ts", "package.json"];

/** Builds the page once before the tests in the browser, unless it is newer than its sources. */
export default async function buildPage(): Promise<void> {
  if (isBuilt()) return;
  await whileLocked(projectPath("dist/page-building.lock"), () => {
    // Whoever held the lock before may have built it meanwhile.
    if (!isBuilt()) build();
  });
}

function isBuilt(): boolean {
  return changedAt(builtPage) > Math.max(...sources.map((source) => newest(projectPath(source))));
}

/** Builds beside and puts the page in its place at once: tests on the way never find it half. */
function build(): void {
  const beside = projectPath("dist/page-building");
  const begun = new Date();
  // In a process of its own: what tests set in theirs would make it a build for development.
  const vite = projectPath("node_modules/vite/bin/vite.js");
  execFileSync(process.execPath, [vite, "build", "--outDir", beside], {
    cwd: projectPath("."),
    env: { ...process.env, NODE_ENV: "production" },
    stdio: ["ignore", "ignore", "inherit"],
  });
  // As old as the sources it was read from: what changed during the build is built next time.
  utimesSync(join(beside, "index.html"), begun, begun);
  mkdirSync(dirname(builtPage), { recursive: true });
  renameSync(join(beside, "index.html"), builtPage);
  rmSync(beside, { recursive: true });
}

function newest(path: string): number {
  if (!statSync(path).isDirectory()) return changedAt(path);
  return Math.max(0, ...readdirSync(path).map((name) => newest(join(path, name))));
}

/** 0 where there is no such file. */
function changedAt(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}
