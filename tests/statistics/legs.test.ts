/**
 * Four ways to check a statistic: by hand, against a printed value, against R, and by laws. The list in
 * `legs/legs.txt` names the test of each for every statistic of the room, and for every function that other
 * rooms use, or says why there is none.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { parts } from "./edges/parts.ts";
import { plumbing, source, usedElsewhere } from "./legs/used-elsewhere.ts";

const here = fileURLToPath(new URL(".", import.meta.url));
const kinds = ["hand", "published", "library", "laws"];

interface Leg {
  readonly name: string;
  readonly kind: string;
  readonly file: string;
  readonly title: string;
}

const legs = readLegs(readFileSync(join(here, "legs", "legs.txt"), "utf8"));
const names = [...new Set(legs.map(({ name }) => name))];

describe("the list of legs", () => {
  it("has every statistic of the room, and what other rooms use of it, and no more", () => {
    const room = join(source, "statistics");
    const exported = filesOf(room).flatMap((file) => functionsOf(join(room, file)));
    const statistics = exported.filter((name) => !parts.includes(name));
    const elsewhere = usedElsewhere();
    const used = exported.filter((name) => elsewhere.has(name) && !plumbing.includes(name));
    expect([...statistics, ...used].filter((name) => !names.includes(name))).toEqual([]);
    expect(names.filter((name) => !exported.includes(name))).toEqual([]);
    expect(plumbing.filter((name) => names.includes(name))).toEqual([]);
  });

  it.each(names)("%s has its four legs, each a test that exists or a reason", (name) => {
    const own = legs.filter((leg) => leg.name === name);
    expect([...new Set(own.map(({ kind }) => kind))]).toEqual(kinds);
    for (const { kind, file, title } of own) {
      expect(title.length, `${name}, ${kind}`).toBeGreaterThan(3);
      if (file === "none") continue;
      const text = readFileSync(join(here, `${file}.test.ts`), "utf8");
      expect(titlesOf(text), `${name}, ${kind}: ${file}`).toContain(title);
      expect(text, `${file} says nothing of ${name}`).toMatch(new RegExp(`\\b${name}\\b`));
    }
    expect(own.filter(({ file }) => file !== "none").length).toBeGreaterThan(0);
  });
});

function readLegs(text: string): Leg[] {
  let name = "";
  const found: Leg[] = [];
  for (const line of text.split("\n")) {
    if (line === "" || line.startsWith("#")) continue;
    if (!line.startsWith(" ")) {
      name = line;
      continue;
    }
    const [, kind, file, title] = /^ {2}(\w+) +([\w-]+): (.+)$/.exec(line) ?? [];
    found.push({ name, kind: kind ?? line, file: file ?? "", title: title ?? "" });
  }
  return found;
}

/** The files of the room itself; the compiled loops in `kernels` are parts. */
function filesOf(folder: string): string[] {
  return readdirSync(folder).filter((name) => name.endsWith(".ts"));
}

function functionsOf(path: string): string[] {
  const text = readFileSync(path, "utf8");
  return Array.from(text.matchAll(/^export function (\w+)/gm), ([, name]) => name!);
}

/** The titles of the tests of a file as they are written. */
function titlesOf(text: string): string[] {
  return Array.from(text.matchAll(/\bit\(\s*"((?:[^"\\]|\\.)*)"/g), ([, title]) => title!);
}
