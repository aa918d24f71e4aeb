import type { Kind } from "../kinds.ts";
import type { Parameter } from "../vocabulary.ts";
import type { PlainWord } from "./plain-word.ts";

/** A required argument by position. */
export function required(name: string, kinds: readonly Kind[], meaning: string): Parameter {
  return { name, meaning, takes: "value", kinds, required: true };
}

/** An argument that may be left out; `whenLeftOut` is how its default reads. */
export function optional(
  name: string,
  kinds: readonly Kind[],
  { meaning, whenLeftOut }: { readonly meaning: string; readonly whenLeftOut: string },
): Parameter {
  return { name, meaning, takes: "value", kinds, required: false, whenLeftOut };
}

/** The outcome is of the kind of the first argument; for a list, of the kind of its items. */
export const asFirst: Exclude<PlainWord["answers"], Kind> = {
  shown: "the kind given",
  of: ([first]) => ({ kind: (first?.kind === "list" ? first.item : first?.kind) ?? "missing" }),
};

/** The kind of the items; a number where the list is empty. */
export const asItems: PlainWord["answers"] = {
  shown: "the kind given",
  of: ([list]) => ({ kind: list?.item === "duration" ? "duration" : "number" }),
};
