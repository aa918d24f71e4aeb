import type { ColumnMatch, Matching } from "../cases/matching.ts";
import type { ColumnKind } from "../cases/table.ts";
import { nearestName } from "../problem/nearest-name.ts";
import type { Problem } from "../problem/problem.ts";
import type { FrontMatterPlaces } from "./front-matter-places.ts";
import type { YamlContent, YamlMap, YamlNode } from "./yaml-door.ts";

export const noMatching: Matching = { columns: new Map(), values: new Map() };

/** The values of the keys `columns` and `values`, where the front matter has them. */
export interface MatchingNodes {
  readonly columns: YamlNode | undefined;
  readonly values: YamlNode | undefined;
}

/** Reads how the headings and values of a department's file match the dictionary. */
export function matchingOf(
  nodes: MatchingNodes,
  places: FrontMatterPlaces,
): { readonly matching: Matching; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const read = { places, problems };
  const columns = new Map<string, ColumnMatch>();
  for (const [heading, node] of entriesOf(nodes.columns, "columns: heading: field", read)) {
    const match = columnMatchOf(node, read);
    if (match !== null) columns.set(heading, match);
  }
  const values = new Map<string, ReadonlyMap<string, string>>();
  for (const [field, node] of entriesOf(nodes.values, "values: field: written: code", read)) {
    values.set(field, textsOf(node, `${field}: written: code`, read));
  }
  return { matching: { columns, values }, problems };
}

/** The matching as it is written into the front matter. The inverse of `matchingOf`. */
export function contentOfMatching(matching: Matching): {
  readonly columns: ReadonlyMap<string, YamlContent>;
  readonly values: ReadonlyMap<string, YamlContent>;
} {
  const columns = [...matching.columns].map(
    ([heading, match]) => [heading, contentOfColumn(match)] as const,
  );
  const values = [...matching.values].filter(([, codes]) => codes.size > 0);
  return { columns: new Map(columns), values: new Map(values) };
}

function contentOfColumn(match: ColumnMatch): YamlContent {
  if ("leave" in match) return "leave";
  if (!("field" in match)) return mapOf(match);
  const content = mapOf(match);
  return content.size === 1 && match.field !== "leave" ? match.field : content;
}

function mapOf(match: object): ReadonlyMap<string, string> {
  const entries = Object.entries(match) as [string, string | undefined][];
  return new Map(entries.filter((entry): entry is [string, string] => entry[1] !== undefined));
}

interface Reading {
  readonly places: FrontMatterPlaces;
  readonly problems: Problem[];
}

const kinds: Readonly<Record<ColumnKind, true>> = {
  day: true,
  number: true,
  truth: true,
  code: true,
  codes: true,
  text: true,
  acuity: true,
};

const columnForms =
  "a field's name, leave, { field: operation_date, dayOrder: day first } or " +
  "{ name: drain_volume, kind: number, unit: ml }";

function columnMatchOf(node: YamlNode, read: Reading): ColumnMatch | null {
  if (node.type === "text" && node.text !== "") {
    return node.text === "leave" ? { leave: true } : { field: node.text };
  }
  if (node.type !== "map") return refuse(node, columnForms, read);
  const texts = textsOf(node, columnForms, read);
  const keys = texts.has("field") ? ["field", ...Object.keys(settled)] : ["name", "kind", "unit"];
  refuseUnknown(node, keys, read);
  if (texts.has("field")) return fieldMatchOf(node, texts, read);
  const name = texts.get("name");
  const kind = texts.get("kind");
  if (name === undefined || kind === undefined || !Object.hasOwn(kinds, kind)) {
    return refuse(node, `name and kind, the kind one of ${Object.keys(kinds).join(", ")}`, read);
  }
  const unit = texts.get("unit");
  return { name, kind: kind as ColumnKind, ...(unit !== undefined && { unit }) };
}

/** What a column of the dictionary can have settled, and in which words. */
const settled: Readonly<Record<"dayOrder" | "acuityNotation" | "names", readonly string[]>> = {
  dayOrder: ["day first", "month first"],
  acuityNotation: ["logMAR", "decimal", "letters"],
  names: ["shown"],
};

function fieldMatchOf(
  node: YamlNode,
  texts: ReadonlyMap<string, string>,
  read: Reading,
): ColumnMatch | null {
  for (const [key, words] of Object.entries(settled)) {
    const word = texts.get(key);
    if (word !== undefined && !words.includes(word)) {
      return refuse(node, words.map((each) => `${key}: ${each}`).join(", or "), read);
    }
  }
  const known = [...texts].filter(([key]) => key === "field" || Object.hasOwn(settled, key));
  return Object.fromEntries(known) as ColumnMatch;
}

function refuseUnknown(node: YamlMap, keys: readonly string[], read: Reading): void {
  for (const { key } of node.entries) {
    if (keys.includes(key.text)) continue;
    read.problems.push({
      ...read.places.problem("unknown-key", key.start, "A column's match has no key of this name."),
      found: key.text,
      expected: nearestName(key.text, keys) ?? `one of ${keys.join(", ")}`,
    });
  }
}

function textsOf(node: YamlNode, expected: string, read: Reading): Map<string, string> {
  const texts = new Map<string, string>();
  for (const [key, value] of entriesOf(node, expected, read)) {
    if (value.type === "text") texts.set(key, value.text);
    else refuse(value, expected, read);
  }
  return texts;
}

function entriesOf(
  node: YamlNode | undefined,
  expected: string,
  read: Reading,
): readonly (readonly [string, YamlNode])[] {
  if (node === undefined || (node.type === "text" && node.text === "")) return [];
  if (node.type === "map") return node.entries.map(({ key, value }) => [key.text, value]);
  refuse(node, expected, read);
  return [];
}

function refuse(node: YamlNode, expected: string, { places, problems }: Reading): null {
  problems.push(places.wrongKind(node, expected));
  return null;
}
