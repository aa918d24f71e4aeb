import { callWord } from "./evaluate-call.ts";
import { kindInWords } from "./kinds.ts";
import { noParts, partUse, unknownPart } from "./name-faults.ts";
import type { Evaluate, Scope } from "./scope.ts";
import type { PartNode } from "./tree.ts";
import type { Outcome, Word } from "./vocabulary.ts";

/**
 * Reads a part of a thing, or calls it. Parts are looked up in the thing's own map only, never
 * on an object. A part of missing is missing.
 */
export function evaluatePart(node: PartNode, scope: Scope, evaluate: Evaluate): Outcome {
  const base = evaluate(node.of, scope);
  if (!base.ok || base.value.kind === "missing") return base;
  if (base.value.kind !== "thing") {
    return { ok: false, problems: [noParts(node, kindInWords(base.value.kind))] };
  }
  const part = base.value.parts.get(node.part);
  if (part === undefined) return { ok: false, problems: [unknownPart(node, base.value)] };
  const misused = partUse(node, base.value);
  if (misused !== null) return { ok: false, problems: [misused] };
  if ("kind" in part) return { ok: true, value: part };
  const word = part as Word;
  return callWord({ word, given: node.arguments ?? [], span: node.span }, scope, evaluate);
}
