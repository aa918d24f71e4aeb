/** Whether a value is an e-mail address and nothing else. */
export function isEMail(value: string): boolean {
  return value.includes("@") && /^(?:mailto:)?[^\s@]+@[^\s@]+\.[^\s@]+$/i.test(value);
}

/** Whether a value is a telephone number: international, or national by its leading 0 or its groups. */
export function isTelephoneNumber(value: string): boolean {
  const number = value.replace(/^(?:tel|phone|mob(?:ile)?|home|work)\b[ .:]*/i, "");
  if (!/^[+(]?\d[\d ()./-]+$/.test(number) || isDateLike(number)) return false;
  const digits = number.replaceAll(/\D/g, "").length;
  if (digits < 9 || digits > 15) return false;
  return /^(\+|00|\(?0\d)/.test(number) || /^\(?\d{3}\)?[ .-]\d{3}[ .-]\d{4}$/.test(number);
}

/** `01.02.2024 3`, `01-02-24 12-03-24`: days, whatever stands after them. */
function isDateLike(value: string): boolean {
  return /^\d{1,2}([./-])\d{1,2}\1\d{2,4}(?!\d)/.test(value);
}

/** United Kingdom (Royal Mail, Programmers' Guide): some letters never stand in the last two. */
const britishPostcode = /^[A-Z]{1,2}\d[A-Z\d]? ?\d[ABD-HJLNP-UW-Z]{2}$/i;
/** Canada: letter and digit in turn, some letters never. */
const canadianPostcode = /^[ABCEGHJ-NPRSTVXY]\d[ABCEGHJ-NPRSTV-Z][ -]?\d[ABCEGHJ-NPRSTV-Z]\d$/i;
/** The Netherlands: four digits and two capitals, never SA, SD, SS; and units are none. */
const dutchPostcode = /^[1-9]\d{3} ?(?!S[ADS]|CS|IU|[AP]M|[NMC]M|M[LGWSJ]|UG|ML|HZ|KG)[A-Z]{2}$/;
/** United States: nine digits, or five behind the state. */
const states =
  "A[KLRZ]|C[AOT]|D[CE]|FL|GA|HI|I[ADLN]|K[SY]|LA|M[ADEINOST]|N[CDEHJMVY]|O[HKR]|PA|RI|S[CD]|T[NX]|UT|V[AT]|W[AIVY]";
const americanPostcode = new RegExp(`^\\d{5}-\\d{4}$|^(?:${states}) \\d{5}(?:-\\d{4})?$`);
/** The country's letters before the digits, as across borders. */
const continentalPostcode = /^(?:D|A|CH|F|I|E|B|L|DK|S|N|FIN|PL|CZ)-\d{4,5}$/;

/** Whether a value is a postal code and nothing else. */
export function isPostcode(value: string): boolean {
  if (value.length < 5 || value.length > 10) return false;
  return [
    britishPostcode,
    canadianPostcode,
    dutchPostcode,
    americanPostcode,
    continentalPostcode,
  ].some((shape) => shape.test(value));
}

/** `12a High Street`, `Flat 2, 14 North Rd`: words of the street with capitals. */
const englishStreet =
  /(?:^|[ ,])\d{1,5}[a-z]?,? (?:\p{Lu}[\p{L}'.-]* ){1,3}(?:Street|Road|Avenue|Lane|Drive|Close|Court|Crescent|Gardens|Grove|Place|Terrace|Square|Park|Boulevard|Mews|Walk|Way|Hill|Parkway|Highway|(?:St|Rd|Ave|Ln|Dr|Cl|Ct|Cres|Blvd)(?=\.?(?:,|$)))(?![\p{L}])/u;
/** The same all in capitals, or all small where the word can only be a street. */
const plainStreet =
  /(?:^|[ ,])\d{1,5}[a-z]?,? (?:[\p{L}'.-]+ ){1,3}(?:street|road|avenue|crescent|terrace|boulevard)(?![\p{L}])/iu;
/** `Hauptstr. 12`, `Kerkstraat 5 b`. */
const joinedStreet =
  /\p{Lu}[\p{L}-]*(?:stra\u00dfe|strasse|str\.|straat|weg|platz|allee|gasse|gracht|plein|laan|gatan|v\u00e4gen|veien|gata|vej) ?\d{1,4} ?[a-z]?(?![\p{L}\d])/u;
/** `14 rue de la Paix`, `Calle Mayor 3`. */
const romanceStreet =
  /^\d{1,4}(?: ?(?:bis|ter))?,? (?:rue|avenue|all\u00e9e|chemin|impasse|quai|boulevard) |^(?:calle|avenida|plaza|viale|piazza|rua) \p{Lu}.*\d/iu;
const postBox = /^(?:p\.? ?o\.? ?box|postfach|apartado|bo\u00eete postale) \d/i;
/** Postal code with its town: `12345 Neustadt`, `1234 AB Oldetown`, `Newtown, IL 62701`. */
const townWithCode = new RegExp(
  `^(?:[A-Z]{1,2}-\\d{4,5}|\\d{5}|\\d{4} [A-Z]{2}),? (?!Units)\\p{Lu}\\p{Ll}{3,}(?:[ -]\\p{L}+)*$|\\p{L}{3,},? (?:${states}) \\d{5}(?:-\\d{4})?$|\\p{L}{3,},? [A-Z]{1,2}\\d[A-Z\\d]? \\d[ABD-HJLNP-UW-Z]{2}$`,
  "u",
);

/** Whether a value holds a street with its number, a post box, or a town with its postal code. */
export function isAddress(value: string): boolean {
  if (value.length < 8 || !/\d/.test(value)) return false;
  return [englishStreet, plainStreet, joinedStreet, romanceStreet, postBox, townWithCode].some(
    (shape) => shape.test(value),
  );
}
