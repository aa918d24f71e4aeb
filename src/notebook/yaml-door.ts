import {
  Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type Node,
  Pair,
  parseDocument,
  Scalar,
  YAMLMap,
} from "yaml";

/**
 * The only door to YAML. Every scalar is read as the text that was written (`007`, `yes` and
 * `2025-03-31` stay texts), so that nothing is guessed; offsets count UTF-16 units.
 */
export type YamlNode = YamlText | YamlMap | YamlOther;

export interface YamlText {
  readonly type: "text";
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

export interface YamlMap {
  readonly type: "map";
  readonly entries: readonly YamlEntry[];
  /** Written in braces on one line. */
  readonly braces: boolean;
  readonly start: number;
  readonly end: number;
}

/** What a notebook has no use for: a list, an alias, something tagged. */
export interface YamlOther {
  readonly type: "other";
  readonly what: string;
  readonly start: number;
  readonly end: number;
}

export interface YamlEntry {
  readonly key: YamlText;
  readonly value: YamlNode;
}

export interface YamlFault {
  readonly twice: boolean;
  readonly message: string;
  readonly start: number;
}

/** The text as a tree, with what is wrong in it. Never throws. */
export function readYaml(text: string): {
  readonly root: YamlNode | null;
  readonly faults: readonly YamlFault[];
} {
  const document = parseDocument(text, { schema: "failsafe", prettyErrors: false });
  const faults = [...document.errors, ...document.warnings].map((error) => ({
    twice: error.code === "DUPLICATE_KEY",
    message: error.message,
    start: error.pos[0],
  }));
  return { root: document.contents === null ? null : treeOf(document.contents, 0), faults };
}

/** What a map of a notebook's front matter holds: texts, or maps of texts. */
export type YamlContent = string | ReadonlyMap<string, YamlContent>;

/**
 * One entry as lines, without indentation; texts are quoted where they must be. A map that holds
 * maps stands one key a line; one that holds texts alone stands in braces if `braces`.
 */
export function writeYamlEntry(key: string, content: YamlContent, braces: boolean): string[] {
  const document = new Document<YAMLMap<Node, Node>>(null, { schema: "core" });
  document.contents = mapNode([[key, content]], braces);
  document.contents.flow = false;
  return document.toString(oneLineEach).trimEnd().split("\n");
}

const oneLineEach = {
  lineWidth: 0,
  blockQuote: false,
  doubleQuotedMinMultiLineLength: Number.MAX_SAFE_INTEGER,
} as const;

/** Quoted wherever white space or signs that are not seen could be lost. */
function scalarOf(text: string): Scalar<string> {
  const scalar = new Scalar(text);
  if (text.trim() !== text || /[\p{C}\p{Zl}\p{Zp}]/u.test(text)) scalar.type = "QUOTE_DOUBLE";
  return scalar;
}

function mapNode(
  entries: Iterable<readonly [string, YamlContent]>,
  braces: boolean,
): YAMLMap<Node, Node> {
  const map = new YAMLMap<Node, Node>();
  for (const [key, content] of entries) {
    const value = typeof content === "string" ? scalarOf(content) : mapNode(content, braces);
    map.items.push(new Pair<Node, Node>(scalarOf(key), value));
    if (typeof content !== "string") map.flow = false;
  }
  map.flow ??= braces;
  return map;
}

function treeOf(node: Node, at: number): YamlNode {
  const [start, end] = node.range ?? [at, at];
  if (isAlias(node)) return { type: "other", what: "an alias", start, end };
  if (node.anchor !== undefined) return { type: "other", what: "an anchor", start, end };
  if (node.tag !== undefined && !node.tag.startsWith("tag:yaml.org,2002:")) {
    return { type: "other", what: `a tag, ${node.tag}`, start, end };
  }
  if (isMap(node)) return mapOf(node.items, node.flow === true, { start, end });
  if (isSeq(node)) return { type: "other", what: "a list", start, end };
  const text = isScalar(node) ? String(node.value ?? "") : "";
  return { type: "text", text, start, end };
}

function mapOf(
  items: readonly Pair[],
  braces: boolean,
  { start, end }: { readonly start: number; readonly end: number },
): YamlNode {
  const entries: YamlEntry[] = [];
  for (const { key, value } of items as readonly Pair<Node, Node | null>[]) {
    const read = treeOf(key, start);
    if (read.type !== "text") {
      return { type: "other", what: "a key that is not a text", start: read.start, end: read.end };
    }
    const after = { type: "text", text: "", start: read.end, end: read.end } as const;
    entries.push({ key: read, value: value === null ? after : treeOf(value, read.end) });
  }
  return { type: "map", entries, braces, start, end };
}
