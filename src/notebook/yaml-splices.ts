import type { FrontMatterPlaces } from "./front-matter-places.ts";
import type { LineRange, Splice } from "./lines.ts";
import {
  writeYamlEntry,
  type YamlContent,
  type YamlEntry,
  type YamlMap,
  type YamlNode,
} from "./yaml-door.ts";

/**
 * The lines to replace so that `key` of a map stands for `content`, or is taken out where that is
 * undefined. Lines of what did not change, comments among them, are left alone.
 */
export function entrySplices(
  places: FrontMatterPlaces,
  map: YamlMap,
  [key, content]: readonly [string, YamlContent | undefined],
): Splice[] {
  const entry = map.entries.find((other) => other.key.text === key);
  if (entry === undefined) {
    return content === undefined ? [] : [appended(places, map, [[key, content]])];
  }
  const { from, to } = linesOf(places, entry);
  if (content === undefined) return [{ at: from, remove: to - from, insert: [] }];
  if (isSame(entry.value, content)) return [];
  const inner = typeof content === "string" ? null : blockMapOf(places, entry);
  if (inner === null || typeof content === "string") return [rewritten(places, entry, content)];
  return mapSplices(places, inner, content);
}

/** In the order of their lines: changes and removals, then what is new behind the last entry. */
function mapSplices(
  places: FrontMatterPlaces,
  map: YamlMap,
  content: ReadonlyMap<string, YamlContent>,
): Splice[] {
  const had = new Set(map.entries.map((entry) => entry.key.text));
  const added = [...content].filter(([key]) => !had.has(key));
  const changes = map.entries.flatMap(({ key }) =>
    entrySplices(places, map, [key.text, content.get(key.text)]),
  );
  return added.length === 0 ? changes : [...changes, appended(places, map, added)];
}

function appended(
  places: FrontMatterPlaces,
  map: YamlMap,
  entries: readonly (readonly [string, YamlContent])[],
): Splice {
  const last = map.entries.at(-1)!;
  const insert = entries.flatMap(([key, content]) => writeYamlEntry(key, content, true));
  const indent = indentAt(places, last);
  return {
    at: linesOf(places, last).to,
    remove: 0,
    insert: insert.map((line) => indent + line),
  };
}

function rewritten(places: FrontMatterPlaces, entry: YamlEntry, content: YamlContent): Splice {
  const { from, to } = linesOf(places, entry);
  const indent = indentAt(places, entry);
  const lines = writeYamlEntry(entry.key.text, content, true).map((line) => indent + line);
  const [first = "", ...others] = lines;
  return { at: from, remove: to - from, insert: [first + commentBehind(places, entry), ...others] };
}

/** A comment behind a value that stands on one line, with the space before it. */
function commentBehind(places: FrontMatterPlaces, { value }: YamlEntry): string {
  const rest = places.text.slice(value.end).split("\n", 1)[0] ?? "";
  return /^\s+#/.test(rest) ? rest : "";
}

/** The map under a key, where each of its entries has lines of its own. */
function blockMapOf(places: FrontMatterPlaces, { value }: YamlEntry): YamlMap | null {
  if (value.type !== "map" || value.braces || value.entries.length === 0) return null;
  return value.entries.every((entry) => hasOwnLines(places, entry)) ? value : null;
}

function hasOwnLines(places: FrontMatterPlaces, { key }: YamlEntry): boolean {
  const before = places.text.slice(0, key.start).split("\n").at(-1)!;
  return /^ *(?:\? )?$/.test(before);
}

function indentAt(places: FrontMatterPlaces, { key }: YamlEntry): string {
  const before = places.text.slice(0, key.start).split("\n").at(-1)!;
  return /^ */.exec(before)?.[0] ?? "";
}

/** The lines of an entry in the file, without comments above or below it. */
function linesOf(places: FrontMatterPlaces, { key, value }: YamlEntry): LineRange {
  const from = places.at(key.start).line;
  return { from, to: places.at(Math.max(key.end, lastOf(places, value))).line + 1 };
}

/** The offset of the last character of a value that is not white space. */
function lastOf(places: FrontMatterPlaces, value: YamlNode): number {
  const last = value.type === "map" && !value.braces ? value.entries.at(-1) : undefined;
  if (last !== undefined) return Math.max(last.key.end, lastOf(places, last.value));
  return value.start + places.text.slice(value.start, value.end).trimEnd().length;
}

function isSame(node: YamlNode, content: YamlContent): boolean {
  if (typeof content === "string") return node.type === "text" && node.text === content;
  if (node.type !== "map" || node.entries.length !== content.size) return false;
  return node.entries.every(({ key, value }) => {
    const other = content.get(key.text);
    return other !== undefined && isSame(value, other);
  });
}
