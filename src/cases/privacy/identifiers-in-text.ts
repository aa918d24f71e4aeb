/** What stands in a text in place of an identifier. */
export const withheld = "[withheld]";

/** A day as it is written by numbers or with a month's name. */
const day = String.raw`(?:\d{1,2}[./ -]\d{1,2}[./ -]\d{2,4}|\d{4}-\d{2}-\d{2}|\d{1,2}(?:st|nd|rd|th)?[ -]?[a-z]{3,9}[ -]\d{2,4})`;
/** Not in the middle of a longer number, of a decimal or of a code. */
const begin = String.raw`(?<![\p{L}\d.,/+-])`;
const end = String.raw`(?![\p{L}\d]|[.,]\d)`;

function shape(source: string, flags = ""): RegExp {
  return new RegExp(source, `gu${flags}`);
}

/**
 * E-mail addresses; telephone numbers; numbers of nine digits and more, in groups or not, which no
 * finding is written with; national numbers with letters; full dates of birth; streets with their
 * number; British postcodes. In this order: the longest shape of a number first.
 */
const identifiers: readonly RegExp[] = [
  shape(String.raw`[\p{L}\d._%+-]+@[\p{L}\d-]+(?:\.[\p{L}\d-]+)+`),
  shape(String.raw`${begin}[1-478] ?\d{2} ?\d{2} ?(?:\d{2}|2[AB]) ?\d{3} ?\d{3} ?\d{2}${end}`),
  shape(String.raw`(?<![\p{L}\d])(?:\+|00)[1-9][\d ()/-]{6,18}\d${end}`),
  shape(String.raw`${begin}\(?0\d{1,4}\)?(?:[ /.-]?\d{2,8}){1,4}${end}`),
  shape(String.raw`${begin}(?:\d{3}[ -]\d{3}[ -]\d{4}|\(\d{3}\) ?\d{3}[ -]\d{4})${end}`),
  shape(String.raw`${begin}\d{3}-\d{2}-\d{4}${end}`),
  shape(String.raw`${begin}\d{6}(?:[-+ ]\d{4,5}|[-+A-FU-Y]\d{3}[0-9A-Z])${end}`),
  shape(String.raw`${begin}\d{9,}${end}`),
  shape(String.raw`${begin}\d{7}[A-W][ABHWTX]?${end}`),
  shape(String.raw`${begin}[A-Z]{2} ?\d{2} ?\d{2} ?\d{2} ?[A-D]${end}`),
  shape(String.raw`\b(?:dob|d\.o\.b\.?|born(?: on)?|date of birth|birth date)[ :]*${day}`, "i"),
  shape(
    String.raw`${begin}\d{1,4}[a-z]?,? (?:\p{Lu}[\p{L}'-]+ ){1,3}(?:Street|Road|Avenue|Lane|Drive|Close|Crescent|Gardens|Terrace)(?!\p{L})`,
  ),
  shape(String.raw`${begin}[A-Z]{1,2}\d[A-Z\d]? \d[ABD-HJLNP-UW-Z]{2}${end}`),
];

/**
 * A text with `[withheld]` in place of every identifier in it; the same text where there is none.
 * Names of people inside a text cannot be told from other words, and stay.
 */
export function withoutIdentifiers(text: string): string {
  if (text.length < 6 || !mayHold.test(text)) return text;
  return identifiers.reduce(
    (left, identifier) =>
      left.replaceAll(identifier, (found) => (isFinding(found) ? found : withheld)),
    text,
  );
}

/** A quick look: an @, four digits, or a digit before a capital. Most texts have none of them. */
const mayHold = /@|\d(?:\D*\d){3}|\d[a-z]?,? ?[A-Z]/;

/** Days, and numbers too short for a telephone, which the shape with a leading 0 takes in too. */
function isFinding(found: string): boolean {
  if (!/^\(?0[1-9]/.test(found)) return false;
  const isDay = /^\d{1,2}([./ -])\d{1,2}\1\d{2,4}(?!\d)/.test(found);
  return isDay || found.replaceAll(/\D/g, "").length < 9;
}
