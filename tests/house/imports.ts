import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, normalize, relative } from "node:path";

/** Rooms that each room may import from, besides itself and `problem`. Imports go down only. */
export const mayImport: Readonly<Record<string, readonly string[]>> = {
  problem: [],
  aggregates: [],
  statistics: [],
  formula: [],
  cases: [],
  charts: ["cases", "statistics"],
  outcomes: ["cases", "statistics"],
  notebook: ["charts", "outcomes", "formula", "cases", "statistics"],
  questions: ["charts", "outcomes", "formula", "cases", "statistics", "aggregates"],
  recalculation: ["notebook", "questions", "charts", "outcomes", "formula", "cases", "statistics"],
  report: [
    ...["recalculation", "notebook", "questions"],
    ...["charts", "outcomes", "formula", "cases", "statistics", "aggregates"],
  ],
  page: [
    ...["report", "recalculation", "notebook", "questions"],
    ...["charts", "outcomes", "formula", "cases", "statistics", "aggregates"],
  ],
  command: [
    ...["report", "recalculation", "notebook", "questions"],
    ...["charts", "outcomes", "formula", "cases", "statistics", "aggregates"],
  ],
};

/** The rooms by which an outside library enters; libraries not named here may not be imported. */
export const doors: readonly (readonly [library: RegExp, ...rooms: string[]])[] = [
  [/^arquero$/, "cases"],
  [/^read-excel-file(\/|$)/, "cases"],
  [/^@observablehq\/runtime$/, "recalculation"],
  [/^vega(-[a-z]+)*$/, "charts"],
  [/^@stdlib\//, "statistics"],
  [/^pure-rand(\/|$)/, "statistics"],
  [/^yaml$/, "notebook"],
  [/^(lit|@codemirror|@lezer|@tanstack)(\/|$)/, "page"],
  [/^@fontsource-variable\//, "page", "report"],
  [/^(pptxgenjs|fflate)$/, "report"],
  [/^@resvg\/resvg-js$/, "command"],
  [/^woff2-encoder(\/|$)/, "command"],
  [/^node:/, "command"],
];

/** Libraries that enter by a single file. */
export const singleDoors: readonly RegExp[] = [
  /^arquero$/,
  /^read-excel-file(\/|$)/,
  /^@observablehq\/runtime$/,
  /^yaml$/,
  /^@stdlib\//,
  /^pure-rand(\/|$)/,
  /^pptxgenjs$/,
  /^fflate$/,
  /^@resvg\/resvg-js$/,
  /^woff2-encoder(\/|$)/,
];

export interface SourceFile {
  /** From `src/`: `cases/read-cases.ts`. */
  readonly path: string;
  readonly text: string;
}

export interface Import {
  readonly from: string;
  /** A path from `src/` for our own files, else the library's name. */
  readonly to: string;
  readonly own: boolean;
}

export function readSources(root: string): SourceFile[] {
  return readdirSync(root, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".ts") && !path.endsWith(".d.ts"))
    .map((path) => ({
      path: path.replaceAll("\\", "/"),
      text: readFileSync(join(root, path), "utf8"),
    }));
}

/** Static, re-exporting, type-only and dynamic imports alike. */
export function importsOf(file: SourceFile): Import[] {
  const code = file.text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/^\s*\/\/.*$/gm, "");
  const pattern =
    /(?:^\s*(?:import|export)\s[^;"']*?\bfrom\s*|\bimport\s*\(\s*|^\s*import\s+)["']([^"']+)["']/gm;
  return [...code.matchAll(pattern)].map((match) => {
    const written = (match[1] ?? "").replace(/\?.*$/, "");
    if (!written.startsWith(".")) return { from: file.path, to: written, own: false };
    const target = relative("src", normalize(join("src", dirname(file.path), written)));
    return { from: file.path, to: target.replaceAll("\\", "/"), own: true };
  });
}

/** Every import that goes up, sideways, or through the wrong door, in words. */
export function wrongImports(files: readonly SourceFile[]): string[] {
  const imports = files.flatMap(importsOf);
  return [
    ...files.map((file) => file.path).flatMap(outsideEveryRoom),
    ...imports.flatMap((each) => (each.own ? wrongRoom(each) : wrongDoor(each))),
    ...singleDoors.flatMap((library) => severalDoors(library, imports)),
  ];
}

function outsideEveryRoom(path: string): string[] {
  const room = roomOf(path);
  return room in mayImport ? [] : [`${path} stands in no room of the house`];
}

function wrongRoom({ from, to }: Import): string[] {
  const own = roomOf(from);
  const other = roomOf(to);
  if (to.startsWith("..")) {
    const allowed =
      /^(page|command)$/.test(own) && /^\.\.\/(notebooks|data-demo|package\.json)/.test(to);
    return allowed ? [] : [`${from} imports ${to}, outside the source`];
  }
  const allowed = own === other || other === "problem" || (mayImport[own] ?? []).includes(other);
  return allowed ? [] : [`${from} imports ${to}: ${own} may not import ${other}`];
}

function wrongDoor({ from, to }: Import): string[] {
  const door = doors.find(([library]) => library.test(to));
  if (door === undefined) return [`${from} imports ${to}, a library that no room is the door for`];
  const rooms = door.slice(1) as readonly string[];
  if (rooms.includes(roomOf(from))) return [];
  return [`${from} imports ${to}: its door is ${rooms.join(" or ")}`];
}

function severalDoors(library: RegExp, imports: readonly Import[]): string[] {
  const files = new Set(
    imports.filter(({ to, own }) => !own && library.test(to)).map(({ from }) => from),
  );
  return files.size <= 1 ? [] : [`${library.source} enters by ${[...files].sort().join(" and ")}`];
}

function roomOf(path: string): string {
  return path.split("/")[0] ?? "";
}

/** The rings of files that import one another, each as a path that ends where it began. */
export function rings(files: readonly SourceFile[]): string[] {
  const targets = new Map(
    files.map((file) => [
      file.path,
      importsOf(file)
        .filter((each) => each.own)
        .map((each) => each.to),
    ]),
  );
  const found: string[] = [];
  const done = new Set<string>();
  const walk = (path: string, trail: readonly string[]): void => {
    const at = trail.indexOf(path);
    if (at >= 0) found.push([...trail.slice(at), path].join(" -> "));
    if (at >= 0 || done.has(path)) return;
    for (const target of targets.get(path) ?? []) walk(target, [...trail, path]);
    done.add(path);
  };
  for (const path of targets.keys()) walk(path, []);
  return found;
}
