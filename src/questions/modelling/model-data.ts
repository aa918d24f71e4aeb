import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Problem } from "../../problem/problem.ts";
import { patientClusters } from "../answering/patient-clusters.ts";
import { counted, listed } from "../answering/wording.ts";
import { type BoundTerm, boundTerms } from "./bound-term.ts";
import { type ModelTerm, modelTerm, type TermLevel } from "./model-term.ts";

/** The eyes and terms of a model: every term is recorded for every eye. */
export interface ModelData {
  readonly record: EyeRecord;
  /** Eyes of the record, in the order of every column. */
  readonly eyes: readonly number[];
  readonly terms: readonly ModelTerm[];
  /** All levels of all terms, in the order of the model's covariates. */
  readonly columns: readonly TermLevel[];
  /** The covariates' names, by position. */
  readonly names: readonly string[];
  /** The patient of each eye, where patients give two. */
  readonly cluster: Int32Array | undefined;
  /** Eyes on which a term is not recorded, by what is missing. */
  readonly silent: readonly { readonly reason: string; readonly eyes: readonly number[] }[];
  /** The columns that the terms use, for the cautions that depend on them. */
  readonly by: readonly string[];
}

/** The data of a model of the given eyes, complete cases only, or what stands against it. */
export function modelData(
  record: EyeRecord,
  eyes: readonly number[],
  given: GivenArguments,
): { readonly data: ModelData } | { readonly problems: readonly Problem[] } {
  const found = boundTerms(record, given);
  if ("problems" in found) return found;
  return dataOf(record, eyes, found.bound);
}

/** The same from terms that are bound already. */
export function dataOf(
  record: EyeRecord,
  eyes: readonly number[],
  bound: readonly BoundTerm[],
): { readonly data: ModelData } | { readonly problems: readonly Problem[] } {
  const complete = eyes.filter((eye) => bound.every(({ column }) => column.at(eye) !== null));
  if (complete.length < 2) return { problems: [fewComplete(bound, eyes, complete.length)] };
  const made = bound.map((each) => modelTerm(each, complete));
  const problems = made.flatMap((each) => ("problem" in each ? [each.problem] : []));
  if (problems.length > 0) return { problems };
  const terms = made.flatMap((each) => ("term" in each ? [each.term] : []));
  const columns = terms.flatMap(({ levels }) => levels);
  return {
    data: {
      record,
      eyes: complete,
      terms,
      columns,
      names: columns.map((_, position) => `x${position}`),
      cluster: patientClusters(record, complete),
      silent: silentEyes(eyes, bound),
      by: [...new Set(bound.flatMap(({ names }) => names))],
    },
  };
}

function silentEyes(eyes: readonly number[], bound: readonly BoundTerm[]): ModelData["silent"] {
  const byReason = new Map<string, number[]>();
  for (const eye of eyes) {
    const missing = bound.filter(({ column }) => column.at(eye) === null);
    if (missing.length === 0) continue;
    const reason = `${listed(missing.map(({ label }) => label))} not recorded`;
    const group = byReason.get(reason);
    if (group === undefined) byReason.set(reason, [eye]);
    else group.push(eye);
  }
  return [...byReason].map(([reason, group]) => ({ reason, eyes: group }));
}

/** One fault, however many terms are silent: it says how often each of them is. */
function fewComplete(
  bound: readonly BoundTerm[],
  eyes: readonly number[],
  complete: number,
): Problem {
  const silent = ({ column }: BoundTerm): number =>
    eyes.filter((eye) => column.at(eye) === null).length;
  const missing = bound
    .map((term) => ({ term, count: silent(term) }))
    .filter(({ count }) => count > 0)
    .sort((one, other) => other.count - one.count);
  const texts = bound.map(({ text }) => text);
  const counts = missing.map(({ term, count }) => `${term.text} not recorded in ${count}`);
  return {
    code: "no-complete-eyes",
    severity: "stop",
    place: { span: missing[0]?.term.span ?? bound[0]!.span },
    message:
      `${complete === 0 ? "no eye is" : "only one eye is"} left on which ` +
      `${listed(texts)} ${texts.length === 1 ? "is" : texts.length === 2 ? "are both" : "are all"} recorded`,
    found: [counted(eyes.length, "eye"), ...counts].join(", "),
    remedy: "leave out the term that is recorded least, or take in more eyes",
  };
}

/**
 * Columns of the model as a reader knows them, gathered by term: "age", "technique: vitrectomy",
 * "technique" for all of its levels.
 */
export function columnsInWords(data: ModelData, names: readonly string[]): string[] {
  const wanted = new Set(
    data.columns.filter((_, position) => names.includes(data.names[position] ?? "")),
  );
  return data.terms.flatMap((term) => {
    const levels = term.levels.filter((level) => wanted.has(level));
    if (levels.length === 0) return [];
    const isWhole = levels.length === term.levels.length && levels.length > 1;
    if (isWhole || isOneColumn(term)) return [term.label];
    return [`${term.label}: ${listed(levels.map(({ text }) => text))}`];
  });
}

/** An amount and a yes or no need no level beside their name. */
function isOneColumn({ kind, column }: ModelTerm): boolean {
  return kind === "amount" || column.kind === "truth";
}

/** The span of the term that a column belongs to. */
export function columnSpan(data: ModelData, name: string): ModelTerm["span"] | undefined {
  const level = data.columns[data.names.indexOf(name)];
  return data.terms.find(({ levels }) => level !== undefined && levels.includes(level))?.span;
}
