import type { Matching } from "../cases/matching.ts";
import { nearestName } from "../problem/nearest-name.ts";
import type { Problem } from "../problem/problem.ts";
import { type Computed, computedOf } from "./computed.ts";
import { type FrontMatterPlaces, placesIn } from "./front-matter-places.ts";
import { isBlank, type Line, type LineRange } from "./lines.ts";
import { matchingOf, noMatching } from "./matching-of.ts";
import { smallestCountOf } from "./smallest-count.ts";
import {
  readYaml,
  type YamlEntry,
  type YamlFault,
  type YamlMap,
  type YamlNode,
} from "./yaml-door.ts";

/** What stands above the prose, between two lines of `---`. */
export interface FrontMatter {
  /** Its lines with both marks; empty where the notebook has none. */
  readonly lines: LineRange;
  /** Of the notebook's format, as written; 0 where it says none. */
  readonly version: number;
  readonly title?: string;
  readonly period?: string;
  /** The department. */
  readonly unit?: string;
  /** Who makes the report, such as "audit lead"; a role rather than a name. */
  readonly madeBy?: string;
  /** For whom the notebook is read. */
  readonly reader?: string;
  /** The smallest count that a report to share shows, where the notebook says one. */
  readonly smallestCount?: number;
  readonly matching: Matching;
  readonly computed: Computed;
}

export interface FrontMatterReading {
  readonly front: FrontMatter;
  readonly problems: readonly Problem[];
}

/** The version of the format that this program writes. */
export const currentVersion = 1;

/** Keys that hold a text, and what they are called here. */
export const textKeys: ReadonlyMap<string, TextName> = new Map<string, TextName>([
  ["title", "title"],
  ["period", "period"],
  ["unit", "unit"],
  ["made_by", "madeBy"],
  ["reader", "reader"],
]);
export type TextName = "title" | "period" | "unit" | "madeBy" | "reader";

const frontMatterKeys: readonly string[] = [
  "holdfast",
  ...textKeys.keys(),
  "smallest_count",
  "columns",
  "values",
  "computed",
];

/**
 * Reads the front matter. A problem that stops means that the notebook must not be opened: a key
 * that is not known, a value of the wrong kind, a newer version, text that is not YAML.
 */
export function readFrontMatter(lines: readonly Line[]): FrontMatterReading {
  const problems: Problem[] = [];
  const range = frontMatterLines(lines, problems);
  const none = { lines: range, version: 0, matching: noMatching, computed: new Map() };
  if (problems.length > 0) return { front: none, problems };
  const places = placesIn(lines, { from: range.from + 1, to: range.to - 1 });
  const root = range.to === 0 ? null : rootOf(places, problems);
  if (problems.length > 0) return { front: none, problems };
  const entries = new Map(root?.entries.map((entry) => [entry.key.text, entry]));
  problems.push(...unknownKeys(entries, places));
  const version = versionOf(entries.get("holdfast"), places, problems);
  const texts = textsOf(entries, places, problems);
  const smallest = smallestCountOf(valueUnder(entries, "smallest_count"), places, problems);
  const matching = matchingOf(
    { columns: valueUnder(entries, "columns"), values: valueUnder(entries, "values") },
    places,
  );
  problems.push(...matching.problems);
  const computed = computedOf(valueUnder(entries, "computed"), places, problems);
  const said = smallest === undefined ? texts : { ...texts, smallestCount: smallest };
  const front = { ...none, version, ...said, matching: matching.matching, computed };
  return { front, problems };
}

/** The text between the marks as a map, or null where there is nothing. */
export function rootOf(places: FrontMatterPlaces, problems: Problem[]): YamlMap | null {
  const { root, faults } = readYaml(places.text);
  for (const fault of faults) problems.push(unreadable(fault, places));
  if (root === null || faults.length > 0) return null;
  if (root.type === "map" && !root.braces) return root;
  problems.push({
    ...places.problem(
      "front-matter-unreadable",
      root.start,
      "The front matter is not a list of keys.",
    ),
    found: places.excerpt(root),
    expected: "one key a line, such as title: Detachments 2025",
  });
  return null;
}

function unreadable({ twice, message, start }: YamlFault, places: FrontMatterPlaces): Problem {
  const what = twice
    ? "A key of the front matter is written twice."
    : `The front matter cannot be read as YAML (${message.replace(/\.$/, "")}).`;
  return {
    ...places.problem("front-matter-unreadable", start, what),
    found: places.lineAt(start),
    expected: twice ? "each key once" : "key: value, one a line",
    remedy: twice
      ? "take one of the two out"
      : "put quotes around a text that holds a colon, a # or brackets",
  };
}

function frontMatterLines(lines: readonly Line[], problems: Problem[]): LineRange {
  const isMark = (text: string) => text.startsWith("---") && isBlank(text.slice(3));
  if (!isMark((lines[0]?.text ?? "").replace(/^\uFEFF/, ""))) return { from: 0, to: 0 };
  const end = lines.findIndex((line, index) => index > 0 && isMark(line.text));
  if (end >= 0) return { from: 0, to: end + 1 };
  problems.push({
    code: "front-matter-not-closed",
    severity: "stop",
    place: { line: 1, column: 1 },
    message: "The front matter begins on this line and never ends.",
    found: "---",
    expected: "a second line of --- behind its last key",
    remedy: "add a line of --- where the prose begins",
  });
  return { from: 0, to: 0 };
}

function* unknownKeys(
  entries: ReadonlyMap<string, YamlEntry>,
  places: FrontMatterPlaces,
): Iterable<Problem> {
  for (const [name, { key }] of entries) {
    if (frontMatterKeys.includes(name)) continue;
    const near = nearestName(name, frontMatterKeys);
    yield {
      ...places.problem("unknown-key", key.start, "The front matter has no key of this name."),
      found: name,
      expected: near ?? `one of ${frontMatterKeys.join(", ")}`,
      remedy: near === undefined ? "take the line out" : `write ${near}, or take the line out`,
    };
  }
}

function versionOf(
  entry: YamlEntry | undefined,
  places: FrontMatterPlaces,
  problems: Problem[],
): number {
  if (entry === undefined || isNothing(entry.value)) {
    problems.push(olderVersion);
    return 0;
  }
  const written = entry.value.type === "text" ? entry.value.text : "";
  if (!/^\d{1,9}$/.test(written)) {
    const what = "The version of the notebook's format is not a whole number.";
    const problem = places.problem("wrong-kind", entry.value.start, what);
    problems.push({ ...problem, found: places.excerpt(entry.value), expected: "holdfast: 1" });
    return 0;
  }
  const version = Number(written);
  if (version > currentVersion) problems.push(newerVersion(version, places, entry.value.start));
  if (version < currentVersion) problems.push(olderVersion);
  return version;
}

const olderVersion: Problem = {
  code: "older-version",
  severity: "note",
  place: { line: 1 },
  message: "The notebook names no version of its format, so it is read as the first.",
  expected: `holdfast: ${currentVersion} in the front matter`,
};

function newerVersion(version: number, places: FrontMatterPlaces, start: number): Problem {
  return {
    ...places.problem("newer-version", start, "The notebook was written for a newer Holdfast."),
    found: `holdfast: ${version}`,
    expected: `holdfast: ${currentVersion} or older`,
    remedy: "open it with the newer program; nothing in it was changed",
  };
}

function textsOf(
  entries: ReadonlyMap<string, YamlEntry>,
  places: FrontMatterPlaces,
  problems: Problem[],
): { readonly [Name in TextName]?: string } {
  const texts: { [Name in TextName]?: string } = {};
  for (const [key, name] of textKeys) {
    const value = valueUnder(entries, key);
    if (value === undefined || isNothing(value)) continue;
    if (value.type === "text") texts[name] = value.text;
    else problems.push(places.wrongKind(value, `${key}: a text`));
  }
  return texts;
}

function valueUnder(entries: ReadonlyMap<string, YamlEntry>, key: string): YamlNode | undefined {
  return entries.get(key)?.value;
}

/** A key with nothing behind it says nothing. */
function isNothing(value: YamlNode): boolean {
  return value.type === "text" && value.text === "";
}
