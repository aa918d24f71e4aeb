import type { Problem, Severity, Span } from "../problem/problem.ts";

/** Found while the text is read, before any name is looked up. */
export const readingFaults = [
  "argument-name-expected",
  "argument-given-twice",
  "between-without-and",
  "brackets-needed",
  "chained-comparison",
  "comment-in-working",
  "day-form",
  "empty-working",
  "if-incomplete",
  "impossible-day",
  "keyword-case",
  "mismatched-bracket",
  "not-callable",
  "number-form",
  "number-too-large",
  "operator-expected",
  "other-quotes",
  "other-sign",
  "part-name-expected",
  "positional-after-named",
  "too-deep",
  "unclosed-bracket",
  "unclosed-text",
  "unknown-character",
  "unknown-escape",
  "unknown-test",
  "unknown-unit",
  "unopened-bracket",
  "value-expected",
  "working-too-long",
] as const;

/** Found when names, kinds and arguments are looked at, or when the working is worked out. */
export const meaningFaults = [
  "argument-left-out",
  "argument-with-equals",
  "branches-differ",
  "cell-called",
  "column-not-summed-up",
  "compared-with-missing",
  "list-expected",
  "no-parts",
  "not-a-column",
  "not-by-row",
  "not-finite",
  "not-finite-word",
  "operator-kinds",
  "part-called",
  "part-not-called",
  "text-without-quotes",
  "too-many-arguments",
  "unknown-argument",
  "unknown-name",
  "unknown-part",
  "unknown-word",
  "word-not-called",
  "wrong-choice",
  "wrong-kind",
] as const;

export type ReadingFault = (typeof readingFaults)[number];
export type MeaningFault = (typeof meaningFaults)[number];

/** Every kind of fault that the language can find in a working. */
export type FaultCode = ReadingFault | MeaningFault;

export interface FaultText {
  /** One sentence: what is wrong. */
  readonly message: string;
  readonly found?: string | undefined;
  readonly expected?: string | undefined;
  readonly remedy?: string | undefined;
  /** Takes the place of the text at the span. */
  readonly replacement?: string | undefined;
  /** `stop` where left out. */
  readonly severity?: Severity;
}

/** A problem at a span of the working. Parts of the text that are undefined are left out. */
export function fault(code: FaultCode, span: Span, text: FaultText): Problem {
  const { severity = "stop", message, found, expected, remedy, replacement } = text;
  return {
    code,
    severity,
    place: { span },
    message,
    ...(found === undefined ? {} : { found }),
    ...(expected === undefined ? {} : { expected }),
    ...(remedy === undefined ? {} : { remedy }),
    ...(replacement === undefined ? {} : { replacement }),
  };
}
