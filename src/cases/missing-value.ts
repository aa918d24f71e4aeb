/** Every way of writing that nothing was recorded, in lower case. Declared here and nowhere else. */
const missingSpellings: ReadonlySet<string> = new Set([
  "",
  "-",
  "--",
  "---",
  "\u2013",
  "\u2014",
  ".",
  "?",
  "??",
  "na",
  "n/a",
  "n.a.",
  "#n/a",
  "nan",
  "null",
  "nk",
  "n/k",
  "nr",
  "n/r",
  "missing",
  "unknown",
  "not known",
  "not recorded",
  "not available",
  "not applicable",
  "not documented",
  "not stated",
]);

/**
 * Whether a trimmed value says that nothing was recorded. A code list that has `unknown` of its
 * own is asked first.
 */
export function isMissing(written: string): boolean {
  return written === "" || (written.length <= 15 && missingSpellings.has(written.toLowerCase()));
}
