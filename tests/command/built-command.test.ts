import { type ChildProcess, execFileSync, spawn, spawnSync } from "node:child_process";
import {
  appendFileSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  writeFileSync,
} from "node:fs";
import { open } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, beforeEach, describe, expect, test, vi } from "vitest";

/* The command as it is built and shipped, run as a process of its own. */

const built = mkdtempSync(join(tmpdir(), "holdfast-built-"));
const program = join(built, "holdfast.mjs");
const demo = "notebooks/demo.md";
const cases = "data-demo/repairs.csv";
let folder = "";
const out = (name = "") => join(folder, "out", name);

beforeAll(() => {
  const build = ["node_modules/vite/bin/vite.js", "build", "--mode", "command"];
  execFileSync(process.execPath, [...build, "--logLevel", "warn", "--outDir", built], {
    // The mode of the tests is not the mode of what is shipped.
    env: { ...process.env, NODE_ENV: "production" },
  });
}, 60_000);

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "holdfast-"));
});

function holdfast(...given: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...given], {
    encoding: "utf8",
    timeout: 20_000,
  });
  return { exit: status, said: stdout, warned: stderr };
}

function file(name: string, content: string | Uint8Array): string {
  writeFileSync(join(folder, name), content);
  return join(folder, name);
}

describe("exit codes of the built command", () => {
  test("0 with nothing said by --quiet, for a job that runs by itself", () => {
    const told = holdfast("report", demo, cases, "--into", out(), "--quiet");
    expect(told).toEqual({ exit: 0, said: "", warned: "" });
    expect(readdirSync(out())).toContain("report.html");
    expect(readdirSync(out()).filter((name) => name.endsWith(".part"))).toEqual([]);
  });

  test("1 where a cell has no answer, which --quiet does not keep silent", () => {
    const notebook = file("n.md", "---\nholdfast: 1\n---\n\n    rate = failure_rate(nothing)\n");
    const { exit, said, warned } = holdfast("report", notebook, cases, "--into", out(), "-q");
    expect({ exit, said }).toEqual({ exit: 1, said: "" });
    expect(warned).toMatch(/^rate: .*nothing/);
  });

  test("1 for a file with problems, as JSON that a program can read", () => {
    const { exit, said, warned } = holdfast("check", cases, "--json");
    expect({ exit, warned }).toEqual({ exit: 1, warned: "" });
    expect(Object.keys(JSON.parse(said))).toEqual([
      ...["file", "rows_read", "rows_kept", "rows_left_out", "queries", "headings"],
      ...["left_out", "problems"],
    ]);
  });

  const unreadable: readonly [string, () => string, RegExp][] = [
    ["a file that is not there", () => join(folder, "none.csv"), /there is no such file/],
    ["a folder", () => folder, /it is a folder/],
    ["an empty file", () => file("c.csv", ""), /holds nothing/],
    [
      "a picture",
      () => file("c.csv", Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10, 0)),
      /picture/,
    ],
  ];
  test.each(unreadable)("2 for %s: what, where and what would be right", (_, path, why) => {
    const { exit, warned } = holdfast("report", demo, path(), "--into", out());
    expect(exit).toBe(2);
    expect(warned).toMatch(why);
    expect(warned).toMatch(/ {2}expected {2}\S.*\n {2}remedy {4}\S/);
    expect(readdirSync(folder)).not.toContain("out");
    const checked = holdfast("check", path(), "--json");
    expect(checked.exit).toBe(2);
    const { problems } = JSON.parse(checked.said);
    expect(problems[0].severity).toBe("stop");
    expect(JSON.stringify(problems[0])).toMatch(why);
  });

  const unwritable: readonly [string, () => string, RegExp][] = [
    ["a file where the folder should be", () => file("out", "mine"), /a file of that name/],
    ["a folder inside a file", () => join(file("f", "mine"), "in"), /a file and no folder/],
    ["a place where nothing can be made", () => "/proc/holdfast/out", /no such file or folder/],
  ];
  test.each(unwritable)("2 for %s", (_, into, why) => {
    const { exit, said, warned } = holdfast("report", demo, cases, "--into", into());
    expect({ exit, said }).toEqual({ exit: 2, said: "" });
    expect(warned).toMatch(why);
    expect(warned).toMatch(/ {2}expected {2}a folder that may be written to/);
    expect(warned).not.toMatch(/\bat .*:\d+:\d+/);
  });

  test("2 where one of the files cannot take its place; none is left half written", () => {
    mkdirSync(out("results.json"), { recursive: true });
    const { exit, warned } = holdfast("report", demo, cases, "--into", out());
    expect(exit).toBe(2);
    expect(warned).toContain("results.json: this cannot be written: it is a folder.");
    expect(readdirSync(out()).filter((name) => name.endsWith(".part"))).toEqual([]);
    const page = out("report.html");
    expect(readFileSync(page, "utf8").trimEnd().endsWith("</html>")).toBe(true);
  });

  test("2 for a notebook that asks nothing", () => {
    const { exit, warned } = holdfast("report", file("n.md", ""), cases, "--into", out());
    expect(exit).toBe(2);
    expect(warned).toMatch(/n\.md: this notebook asks nothing/);
  });
});

describe("--watch of the built command", () => {
  const watching = (notebook: string): ChildProcess =>
    spawn(process.execPath, [
      ...[program, "report", notebook, cases, "--into", out(), "--watch", "--quiet"],
    ]);

  test.each(["SIGINT", "SIGTERM"] as const)(
    "follows changes, outlives a broken notebook, and %s ends it with the last report's code",
    async (signal) => {
      const notebook = join(folder, "n.md");
      copyFileSync("tests/report/pipeline.notebook", notebook);
      const child = watching(notebook);
      let warned = "";
      child.stderr?.on("data", (text) => {
        warned += text;
      });
      const ended = new Promise((resolve) => child.on("exit", (code) => resolve(code)));
      await vi.waitFor(() => expect(warned).toContain("Ctrl-C ends it"), 15_000);
      const results = () => readFileSync(out("results.json"), "utf8");
      const whole = readFileSync(notebook, "utf8");
      writeFileSync(notebook, "---\nholdfast: 99\n---\n");
      await vi.waitFor(() => expect(warned).toMatch(/n\.md.*line 2/), 15_000);
      writeFileSync(notebook, whole);
      appendFileSync(notebook, "\n    added = failure_rate(eyes)\n");
      await vi.waitFor(() => expect(results()).toContain('"added"'), 15_000);
      child.kill(signal);
      expect(await ended).toBe(0);
      expect(readdirSync(out()).filter((name) => name.endsWith(".part"))).toEqual([]);
    },
    60_000,
  );
});

test.each([
  ["SIGINT", 130],
  ["SIGTERM", 143],
] as const)(
  "%s while it works ends it with %i, every file of before whole",
  async (signal, code) => {
    holdfast("report", demo, cases, "--into", out());
    const before = readFileSync(out("report.html"), "utf8");
    // A pipe that nothing comes out of: who opens it to write waits until the command reads from it.
    const pipe = join(folder, "cases.csv");
    execFileSync("mkfifo", [pipe]);
    const child = spawn(process.execPath, [program, "report", demo, pipe, "--into", out()]);
    const ended = new Promise((resolve) => child.on("exit", (exit) => resolve(exit)));
    const writing = await open(pipe, "w");
    child.kill(signal);
    // A reading that waits for the pipe holds up the end of the process itself, once called for.
    await Promise.race([ended, new Promise((resolve) => setTimeout(resolve, 1000))]);
    await writing.close();
    expect(await ended).toBe(code);
    expect(readFileSync(out("report.html"), "utf8")).toBe(before);
    expect(readdirSync(out()).filter((name) => name.endsWith(".part"))).toEqual([]);
  },
  30_000,
);
