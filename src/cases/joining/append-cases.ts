import { fieldNamed } from "../dictionary.ts";
import type { UncheckedCases } from "../unchecked-cases.ts";
import type { JoinedCases } from "./joined-cases.ts";
import { type Decision, type Meeting, mergeRows, type Pairing } from "./merge-rows.ts";
import { keyOf, rowsByKey, valuesIn } from "./row-keys.ts";

/**
 * Puts a later export behind an earlier one: next quarter's operations, or the whole file again
 * with what has become known since. A row that is in both is one case: by patient, eye and day of
 * operation, else by its id, where the ids do not say of themselves that they began again. The
 * later file's value counts, and each that differs is listed; a value that only the earlier file
 * has is kept. No row of either is lost.
 */
export function appendCases(first: UncheckedCases, second: UncheckedCases): JoinedCases {
  const partners = partnersOf(first, second);
  const pairing: Pairing = { partners, order: [...partners.keys()] };
  return { ...mergeRows({ first, second }, pairing, decide), leftOut: [] };
}

/** What an operation is known by; two operations differ in at least two of these, or in the day. */
const identity = ["patient", "eye", "operation_date"];

function partnersOf(first: UncheckedCases, second: UncheckedCases): (number | "new")[] {
  const byOperation = rowsByKey(first, keyOf(first, identity));
  const byId = rowsByKey(first, keyOf(first, ["case"]));
  const operationOf = keyOf(second, identity);
  const idOf = keyOf(second, ["case"]);
  const differs = identityTest(first, second);
  const taken = new Set<number>();
  return [...second.rows.lines.keys()].map((row) => {
    const free = (rows: readonly number[] = []) => rows.filter((partner) => !taken.has(partner));
    const [same] = free(byOperation.get(operationOf(row) ?? ""));
    const partner = same ?? free(byId.get(idOf(row) ?? "")).find((called) => !differs(called, row));
    if (partner === undefined) return "new";
    taken.add(partner);
    return partner;
  });
}

/**
 * Whether two rows with one id are two operations all the same: ids are often row numbers, which
 * begin again in every export. One corrected fact does not make another operation, where the two
 * others agree.
 */
function identityTest(
  first: UncheckedCases,
  second: UncheckedCases,
): (one: number, other: number) => boolean {
  const readers = identity.map(
    (field) => [valuesIn(first, field), valuesIn(second, field)] as const,
  );
  return (one, other) => {
    let [agreeing, differing] = [0, 0];
    for (const [ofFirst, ofSecond] of readers) {
      const [earlier, later] = [ofFirst(one), ofSecond(other)];
      if (earlier === null || later === null) continue;
      if (earlier === later) agreeing++;
      else differing++;
    }
    return differing > 0 && !(differing === 1 && agreeing === 2);
  };
}

function decide({ field, earlier, later }: Meeting): Decision {
  if (field === "case") return { value: earlier ?? later };
  if (earlier === null) return { value: later };
  if (later === null) return { value: earlier, ...(isSaid(field) && { query: valueGone }) };
  return { value: later, ...(identity.includes(field) && { query: identityChanged }) };
}

/** What reading or numbering made is not in the file. */
function isSaid(field: string): boolean {
  return fieldNamed(field)?.madeFrom === undefined && field !== "quadrants_detached";
}

const valueGone = {
  code: "value-gone",
  message: "an earlier file has a value here and this one has none; the earlier one is kept.",
  remedy: "put the value back in the later file, or correct it if it was wrong",
};

const identityChanged = {
  code: "operation-changed",
  message: "this case has another patient, eye or day of operation than in an earlier file.",
  remedy: "check which is right, and that it is the same operation",
};
