import { foldSpelling } from "./fold-spelling.ts";
import { isMissing } from "./missing-value.ts";

/** What tells who a person is. Such a column is never shown and never kept. */
export type PrivateKind =
  | "name"
  | "date of birth"
  | "postcode"
  | "address"
  | "telephone number"
  | "e-mail address"
  | "health-service number";

const headings: Readonly<Record<PrivateKind, string>> = {
  name: "name; patient name; pt name; full name; surname; family name; last name; first name; forename; forenames; given name; initials; patient initials; next of kin; maiden name; title; gp name",
  "date of birth":
    "dob; d o b; date of birth; birth date; birthdate; birthday; patient dob; born; date birth",
  postcode: "postcode; post code; postal code; zip; zip code; zipcode",
  address:
    "address; home address; street; address 1; address 2; address line 1; address line 2; town; city",
  "telephone number":
    "phone; phone number; telephone; telephone number; tel; tel no; mobile; mobile number; mobile phone; cell; cell phone; contact number; home phone",
  "e-mail address": "email; e mail; email address; mail",
  "health-service number":
    "nhs number; nhs no; nhs; nhs num; chi; chi number; health number; health service number; health card number; medicare number; insurance number; national id; national insurance number; social security number; ssn; passport number",
};

const byHeading: ReadonlyMap<string, PrivateKind> = new Map(
  (Object.entries(headings) as [PrivateKind, string][]).flatMap(([kind, spellings]) =>
    spellings.split("; ").map((spelling): [string, PrivateKind] => [foldSpelling(spelling), kind]),
  ),
);

/** What a heading says its column tells of a person, or undefined. */
export function privateByHeading(heading: string): PrivateKind | undefined {
  return byHeading.get(foldSpelling(heading));
}

interface Pattern {
  readonly kind: PrivateKind;
  readonly fits: (value: string) => boolean;
  /** Share of the values that must fit. */
  readonly share: number;
  /** Fewest values that can tell. */
  readonly least: number;
}

const patterns: readonly Pattern[] = [
  { kind: "e-mail address", fits: isEMail, share: 0.2, least: 1 },
  { kind: "postcode", fits: isPostcode, share: 0.5, least: 1 },
  { kind: "health-service number", fits: isHealthServiceNumber, share: 0.9, least: 3 },
  { kind: "telephone number", fits: isTelephoneNumber, share: 0.5, least: 1 },
];

/** What the values of a column tell of a person, or undefined. */
export function privateByValues(written: readonly string[]): PrivateKind | undefined {
  const known = enoughOf(new Set(written)).filter((value) => !isMissing(value));
  return patterns.find(({ fits, share, least }) => {
    const fitting = known.filter(fits).length;
    return fitting >= least && fitting >= share * known.length;
  })?.kind;
}

/** Of more different values than these, so many from all over the column tell as much. */
const enough = 20_000;

function enoughOf(different: ReadonlySet<string>): readonly string[] {
  const all = [...different];
  const step = Math.ceil(all.length / enough);
  return step < 2 ? all : all.filter((_, i) => i % step === 0);
}

/**
 * Whether the values look like people's names: "Smith, John", "Mr J Smith", or nearly all
 * different pairs of capitalised words. To be asked only of columns that are nothing else.
 */
export function looksLikeNames(written: readonly string[]): boolean {
  const filled = written.filter((value) => !isMissing(value));
  const known = [...new Set(filled)];
  const surely = known.filter(isSurelyName).length;
  if (surely > 0 && surely * 2 >= known.length) return true;
  const pairs = known.filter((value) =>
    /^\p{Lu}\p{Ll}+([ -]\p{Lu}\p{Ll}*){1,2}$/u.test(value),
  ).length;
  return known.length >= 5 && pairs >= 0.8 * known.length && known.length >= 0.8 * filled.length;
}

function isSurelyName(value: string): boolean {
  const isReversed = /^\p{Lu}[\p{L}'-]+, ?\p{Lu}[\p{L}'.-]*( \p{Lu}[\p{L}'.-]*)?$/u.test(value);
  return isReversed || /^(mr|mrs|ms|miss|dr|prof)\.? \p{L}/iu.test(value);
}

function isEMail(value: string): boolean {
  return value.includes("@") && /^[^\s@]+@[^\s@]+\.[^\s@]+$/.test(value);
}

/** The shapes of the United Kingdom, Canada, the Netherlands and the nine digits of ZIP+4. */
const postcode =
  /^(?:[a-z]{1,2}\d[a-z\d]? ?\d[a-z]{2}|[a-z]\d[a-z] ?\d[a-z]\d|\d{4} [a-z]{2}|\d{5}-\d{4})$/i;

function isPostcode(value: string): boolean {
  return value.length >= 5 && value.length <= 10 && postcode.test(value);
}

/** International, or a national number with its leading zero or its groups. */
function isTelephoneNumber(value: string): boolean {
  if (!/^[+(]?\d[\d ()./-]+$/.test(value)) return false;
  const digits = value.replaceAll(/\D/g, "").length;
  if (digits < 9 || digits > 15) return false;
  return /^(\+|00|\(?0\d)/.test(value) || /^\(?\d{3}\)?[ .-]\d{3}[ .-]\d{4}$/.test(value);
}

/**
 * Ten digits whose last is the check digit of the first nine: 11 less the remainder by 11 of their
 * sum weighted 10 to 2 (the health service of England and Wales; NHS Data Dictionary).
 */
function isHealthServiceNumber(value: string): boolean {
  if (!/^\d[\d -]{8,}\d$/.test(value)) return false;
  const digits = value.replaceAll(/[ -]/g, "");
  if (digits.length !== 10) return false;
  let sum = 0;
  for (let i = 0; i < 9; i++) sum += Number(digits[i]) * (10 - i);
  const check = (11 - (sum % 11)) % 11;
  return check === Number(digits[9]);
}
