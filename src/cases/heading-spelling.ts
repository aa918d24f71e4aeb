import { nearestName } from "../problem/nearest-name.ts";
import { dictionary } from "./dictionary.ts";
import type { Field } from "./field.ts";
import { foldSpelling } from "./fold-spelling.ts";

/** Fields that a heading can be matched to: not those made from another. */
const matchable: readonly Field[] = dictionary.filter(({ madeFrom }) => madeFrom === undefined);

const bySpelling: ReadonlyMap<string, Field> = new Map(
  matchable.flatMap((field) =>
    [field.name, field.label, ...field.headings].map((spelling): [string, Field] => [
      foldSpelling(spelling),
      field,
    ]),
  ),
);

/** Shorter spellings are near to too much. */
const shortestGuess = 5;
const guessable: readonly string[] = [...bySpelling.keys()].filter(
  (spelling) => spelling.length >= shortestGuess,
);

/** The field whose name a heading is, letter for letter. */
export function fieldByName(heading: string): Field | undefined {
  const field = bySpelling.get(foldSpelling(heading));
  return field?.name === heading ? field : undefined;
}

/** The field that a heading is a known spelling of; what stands in brackets may be left aside. */
export function fieldBySpelling(heading: string): Field | undefined {
  return (
    bySpelling.get(foldSpelling(heading)) ??
    bySpelling.get(foldSpelling(heading.replace(/[([].*[)\]]\s*$/, "")))
  );
}

/** The field that a heading is nearest to, where one is near. */
export function fieldByNearness(heading: string): Field | undefined {
  const folded = foldSpelling(heading);
  if (folded.length < shortestGuess) return undefined;
  const near = nearestName(folded, guessable);
  return near === undefined ? undefined : bySpelling.get(near);
}

/** A heading of one letter pair that is either the row or the person: decided by its values. */
export function isBareId(heading: string): boolean {
  return ["id", "ident", "identifier", "number", "no"].includes(foldSpelling(heading));
}
