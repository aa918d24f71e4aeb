import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { unzipSync } from "fflate";
import { build } from "vite";
import { beforeAll, expect, test } from "vitest";

/** Inside the project, where what it imports is found. */
const outDir = resolve("out/reproducible");
const program = join(outDir, "holdfast.mjs");

const machines = [
  { TZ: "UTC", LANG: "en_GB.UTF-8", LC_ALL: "en_GB.UTF-8" },
  { TZ: "Pacific/Kiritimati", LANG: "de_DE.UTF-8", LC_ALL: "de_DE.UTF-8" },
  { TZ: "America/St_Johns", LANG: "tr_TR.UTF-8", LC_ALL: "tr_TR.UTF-8" },
] as const;

/** Beside the machine's own variables, of which some are needed to start a program. */
const surroundings = (machine: (typeof machines)[number]) => ({ ...process.env, ...machine });

function digestsOn(machine: (typeof machines)[number]): Record<string, string> {
  const into = mkdtempSync(join(tmpdir(), "holdfast-"));
  const asked = ["report", "notebooks/demo.md", "data-demo/repairs.csv", "--into", into];
  const more = ["--slides", "--zip", "--quiet", "--dated", "2026-03-31"];
  execFileSync(process.execPath, [program, ...asked, ...more], { env: surroundings(machine) });
  const digest = (name: string) =>
    createHash("sha256")
      .update(readFileSync(join(into, name)))
      .digest("hex");
  const zipped = unzipSync(readFileSync(join(into, "everything.zip")));
  expect(Object.keys(zipped)).toEqual(
    expect.arrayContaining(["report.html", "results.json", "slides.pptx", "how_often.svg"]),
  );
  for (const name of ["report.html", "results.json", "how_often.csv", "slides.pptx"]) {
    expect(Buffer.compare(zipped[name] ?? Buffer.of(), readFileSync(join(into, name)))).toBe(0);
  }
  return Object.fromEntries(readdirSync(into).map((name) => [name, digest(name)]));
}

beforeAll(async () => {
  await build({ mode: "command", logLevel: "silent", build: { outDir, emptyOutDir: true } });
}, 120_000);

test("a program feels the zone and the locale that are set here", () => {
  const felt = machines.map((machine) => {
    const script = "new Date(0).toString() + (1234.5).toLocaleString() + 'i'.toLocaleUpperCase()";
    return execFileSync(process.execPath, ["-p", script], {
      env: surroundings(machine),
    }).toString();
  });
  expect(new Set(felt).size).toBe(3);
}, 60_000);

test("the same files, byte for byte, in three zones and three locales", () => {
  const [first, ...others] = machines.map(digestsOn);
  expect(Object.keys(first ?? {})).toEqual(
    expect.arrayContaining(["report.html", "results.json", "slides.pptx", "everything.zip"]),
  );
  for (const other of others) expect(other).toEqual(first);
}, 180_000);

const departments = ["n", "s", "w"].map((unit) => `data-demo/departments/unit-${unit}.json`);

test.each([
  ["to share", ["notebooks/demo.md", "data-demo/repairs.csv", "--share"]],
  ["of one surgeon", ["notebooks/surgeon-review.md", "data-demo/repairs.csv"]],
  ["of several departments", ["notebooks/pooled.md", ...departments, "--aggregates"]],
])(
  "a report %s is the same as well",
  (_, given) => {
    const [first, ...others] = machines.map((machine) => {
      const into = mkdtempSync(join(tmpdir(), "holdfast-"));
      const asked = [
        "report",
        ...given,
        "--into",
        into,
        "--zip",
        "--quiet",
        "--dated",
        "2026-04-14",
      ];
      execFileSync(process.execPath, [program, ...asked], { env: surroundings(machine) });
      return Object.fromEntries(
        readdirSync(into).map((name) => [name, readFileSync(join(into, name), "base64")]),
      );
    });
    expect(Object.keys(first ?? {})).toEqual(
      expect.arrayContaining(["report.html", "results.json", "everything.zip"]),
    );
    for (const other of others) {
      expect(Object.keys(other)).toEqual(Object.keys(first ?? {}));
      for (const [name, content] of Object.entries(other)) {
        expect(`${name} ${content === first?.[name]}`).toBe(`${name} true`);
      }
    }
  },
  180_000,
);
