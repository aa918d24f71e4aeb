/**
 * Signs that other notations use and this language does not, each with what takes its place.
 * The reader is told, and offered the mend; the working is read on as if mended.
 */
export const slips: ReadonlyMap<string, string> = new Map([
  ["===", "="],
  ["!==", "!="],
  ["==", "="],
  ["<>", "!="],
  ["=<", "<="],
  ["=>", ">="],
  ["&&", "and"],
  ["||", "or"],
  ["&", "and"],
  ["|", "or"],
  ["!", "not"],
  ["**", "^"],
  ["×", "*"],
  ["·", "*"],
  ["÷", "/"],
  ["−", "-"],
  ["–", "-"],
  [";", ","],
  ["{", "["],
  ["}", "]"],
]);

/** What to do about a character that has no mend of one click. */
export const characterRemedies: ReadonlyMap<string, string> = new Map([
  ["?", "write `if … then … else …` for a choice between two values"],
  ["%", "write `%` directly after a number, as in `85%`"],
  ["$", "write names with letters, digits and underscores"],
  ["@", "write names with letters, digits and underscores"],
  ["'", 'put texts in double quotes, as in `"vitrectomy"`'],
  ["’", 'put texts in double quotes, as in `"vitrectomy"`'],
  ["`", 'put texts in double quotes, as in `"vitrectomy"`'],
]);
