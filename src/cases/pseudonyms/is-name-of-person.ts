import { fieldNamed } from "../dictionary.ts";
import { foldSpelling } from "../fold-spelling.ts";
import { isMissing } from "../missing-value.ts";

const title = /^(mr|mrs|ms|miss|mx|dr|prof|professor|sir|dame)(\.\s*|\s+)\p{L}/iu;

/** What stands in a column of people and names none. */
const plainWords: ReadonlySet<string> = new Set([
  ..."none nil self alone solo other various unsupervised locum yes no".split(" "),
  ...(fieldNamed("surgeon_grade")?.codes ?? []).flatMap(({ code, spellings }) =>
    [code, ...spellings].map(foldSpelling),
  ),
]);

/**
 * Whether what stands for a surgeon is a name and no code: it has a title, or is letters alone and
 * longer than a code: several words, a word of four letters or more, or of three as names are
 * written (Lee). Codes are up to three letters, or have a digit: AB, JSM, S07, Surgeon 3.
 */
export function isNameOfPerson(written: string): boolean {
  if (isMissing(written) || plainWords.has(foldSpelling(written))) return false;
  if (title.test(written)) return true;
  if (/\d/.test(written)) return false;
  const letters = written.replaceAll(/\P{L}/gu, "");
  if (letters.length < 2) return false;
  return (
    /\p{L}\S*\s+.*\p{L}/u.test(written) || letters.length >= 4 || /^\p{Lu}\p{Ll}{2}$/u.test(written)
  );
}
