import { nearestName } from "../problem/nearest-name.ts";
import type { Problem } from "../problem/problem.ts";
import { fault } from "./fault.ts";
import { callForm } from "./match-arguments.ts";
import type { CallNode, NameNode, PartNode } from "./tree.ts";
import type { Thing } from "./value.ts";
import { isWord, type Vocabulary, type Word } from "./vocabulary.ts";

/** A name that is no cell (nor a column, where `names` holds columns too). */
export function unknownName(
  { name, span }: NameNode,
  vocabulary: Vocabulary,
  names: Iterable<string> = [],
): Problem {
  const word = vocabulary.get(name);
  if (word !== undefined) {
    return fault("word-not-called", span, {
      message: `\`${name}\` is a word to call, not a value.`,
      found: name,
      expected: callForm(word),
    });
  }
  const nearest = meansMissing.has(name.toLowerCase()) ? "missing" : nearestName(name, names);
  return fault("unknown-name", span, {
    message: `no cell or column is called \`${name}\`.`,
    found: name,
    remedy:
      nearest === undefined
        ? "add a cell of that name, or put it in quotes if it is a text"
        : `write \`${nearest}\``,
    replacement: nearest,
  });
}

/** How other notations write that nothing is known. */
const meansMissing: ReadonlySet<string> = new Set(["null", "na", "nan", "nil", "undefined"]);

/** A call of something that is no word of the vocabulary. */
export function unknownWord(
  { word, wordSpan, arguments: given }: CallNode,
  vocabulary: Vocabulary,
  isCell: boolean,
): Problem {
  if (isCell) {
    return fault("cell-called", wordSpan, {
      message: `\`${word}\` is a cell, and a cell cannot be called.`,
      found: word,
      remedy: given.length === 0 ? "leave the brackets out" : "use a word of the vocabulary",
    });
  }
  const nearest = nearestName(word, vocabulary.keys());
  return fault("unknown-word", wordSpan, {
    message: `there is no word \`${word}\` to call.`,
    found: word,
    remedy: nearest === undefined ? "choose a word from the list of words" : `write \`${nearest}\``,
    replacement: nearest,
  });
}

/** A part that the thing does not have. */
export function unknownPart({ part, partSpan }: PartNode, thing: Thing): Problem {
  const nearest = nearestName(part, thing.parts.keys());
  const names = [...thing.parts.keys()].map((name) => `\`${name}\``).join(", ");
  return fault("unknown-part", partSpan, {
    message: `\`${thing.of}\` has no part \`${part}\`.`,
    found: part,
    expected: names === "" ? "it has no parts" : names,
    remedy: nearest === undefined ? undefined : `write \`${nearest}\``,
    replacement: nearest,
  });
}

/** A part of something that has none. */
export function noParts({ part, partSpan }: PartNode, what: string): Problem {
  return fault("no-parts", partSpan, {
    message: `${what} has no parts to read by name.`,
    found: `.${part}`,
    remedy: "only answers and other made things have parts",
  });
}

/** A part that is a value and is called, or that is a word and is not called. */
export function partUse(node: PartNode, thing: Thing): Problem | null {
  const part = thing.parts.get(node.part);
  if (part === undefined || isWord(part) === (node.arguments !== null)) return null;
  if (isWord(part)) return notCalled(node, part);
  return fault("part-called", node.partSpan, {
    message: `the part \`${node.part}\` is a value, and a value cannot be called.`,
    found: node.part,
    remedy: "leave the brackets out",
  });
}

function notCalled({ partSpan, part }: PartNode, word: Word): Problem {
  return fault("part-not-called", partSpan, {
    message: `the part \`${part}\` is a word to call.`,
    found: part,
    expected: callForm(word),
  });
}
