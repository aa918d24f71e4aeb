import type { CasesToCheck, Finding } from "./check.ts";

/** A query: the id of a row is given to another row too. It is told apart by a number. */
export function caseTwice(cases: CasesToCheck): readonly Finding[] {
  const ids = cases.values("case");
  if (ids === undefined || new Set(ids).size === ids.length) return [];
  const seen = new Set<string>();
  return cases.eachRow((row) => {
    const id = cases.value("case", row);
    if (typeof id !== "string") return undefined;
    if (!seen.has(id)) {
      seen.add(id);
      return undefined;
    }
    return {
      row,
      field: "case",
      code: "case-twice",
      message: "an earlier row has the same id; this one has a number added to it.",
      found: id,
      expected: "an id for each row",
      remedy: "correct the id, or take the column for what it is: the patient, perhaps",
    };
  });
}
