import { fieldBySpelling } from "../heading-spelling.ts";
import { headingWords } from "./heading-words.ts";
import type { PrivateKind } from "./private-kind.ts";

type Phrases = readonly (readonly [PrivateKind, string])[];

/** Phrases that tell wherever they stand in a heading. The first that is found says the kind. */
const telling: Phrases = [
  [
    "date of birth",
    "dob; d o b; date of birth; birth date; birthdate; birthday; date birth; geburtsdatum; date de naissance; fecha de nacimiento; data di nascita; geboortedatum; fodselsdato; fodelsedatum",
  ],
  [
    "health-service number",
    "nhs number; nhs no; nhs num; nhs id; chi number; chi no; health service number; health card; health insurance number; medicare number; medicare no; medicare card; insurance number; insurance no; national id; national identifier; national insurance; social security; ssn; nino; ppsn; pps number; pps no; bsn; passport; driving licence; identity card; versichertennummer; personnummer; fodselsnummer; codice fiscale; numero de securite sociale",
  ],
  [
    "telephone number",
    "mobile no; mobile number; mobile phone; cell phone; cellphone; phone no; phone number; telephone no; telephone number; tel no; tel number; contact number; contact no; contact tel; contact phone; contact details; handynummer",
  ],
  ["e-mail address", "e mail address; email address"],
  [
    "address",
    "home address; postal address; address line; patient address; house number; house name",
  ],
  [
    "name",
    "surname; forename; forenames; first name; last name; family name; given name; given names; middle name; maiden; patient name; patients name; full name; preferred name; next of kin; known as; vorname; nachname; prenom; apellido; apellidos; voornaam; achternaam; cognome",
  ],
];

/** Phrases that tell where only words of `beside` stand with them. */
const tellingAlone: Phrases = [
  ["date of birth", "born; geboren; geb"],
  [
    "postcode",
    "postcode; postcodes; post code; postal code; zip; zip code; zipcode; plz; postleitzahl; code postal; codigo postal",
  ],
  ["e-mail address", "email; e mail; mail; courriel; correo"],
  [
    "telephone number",
    "phone; telephone; tel; mobile; cell; landline; telefon; telefoon; telefono; fax; emergency contact",
  ],
  ["health-service number", "nhs; chi; health number; medicare; ihi; hcn; phn; ohip; kvnr; ahv"],
  [
    "address",
    "address; addresses; street; town; city; village; county; gp practice; gp surgery; anschrift; adresse; strasse; wohnort; direccion; indirizzo",
  ],
  ["name", "name; names; nombre; initials; title; gp; nok; kin"],
];

/** Whose it is, which one, where, how it is written: what changes nothing in what a column tells. */
const beside: ReadonlySet<string> = new Set(
  `patient patients pat pt pts px client their his her own of the at in and or to on s
  number numbers no num nos nr digits digit id code details contact full line first second third
  home work house business day daytime time evening night mobile land emergency main preferred current
  usual previous former temporary permanent residence residential living address name names
  legal initial next kin nok relative relatives carer guardian parent parents mother father wife
  husband partner spouse son daughter friend person staff surgeon consultant assistant anaesthetist
  anesthetist nurse optometrist optician referrer gp doctor dr physician practitioner family
  dd mm yy yyyy ddmmyyyy format text optional required`.split(/\s+/),
);

interface Phrase {
  readonly kind: PrivateKind;
  readonly words: readonly string[];
}

const tellingPhrases = phrasesIn(telling);
const alonePhrases = phrasesIn(tellingAlone);
const unparted: ReadonlyMap<string, PrivateKind> = new Map(
  [...alonePhrases, ...tellingPhrases].map(({ kind, words }) => [words.join(""), kind]),
);

/**
 * What a heading says its column tells of a person, or undefined. Known headings of the dictionary
 * tell nothing; the field `patient` is private in its own way.
 */
export function privateByHeading(heading: string): PrivateKind | undefined {
  if (fieldBySpelling(heading) !== undefined) return undefined;
  const words = headingWords(heading);
  const told = tellingPhrases.find((phrase) => placeIn(words, phrase.words) >= 0);
  return (
    told?.kind ??
    alonePhrases.find((phrase) => standsAlone(words, phrase))?.kind ??
    byFolding(heading)
  );
}

function phrasesIn(phrases: Phrases): readonly Phrase[] {
  return phrases.flatMap(([kind, written]) =>
    written.split("; ").map((phrase) => ({ kind, words: phrase.split(" ") })),
  );
}

function standsAlone(words: readonly string[], { words: phrase }: Phrase): boolean {
  const at = placeIn(words, phrase);
  if (at < 0) return false;
  const others = [...words.slice(0, at), ...words.slice(at + phrase.length)];
  return others.every((word) => beside.has(word) || /^\d+$/.test(word));
}

/** Where the words of a phrase stand one after the other, or -1. */
function placeIn(words: readonly string[], phrase: readonly string[]): number {
  return words.findIndex((_, at) => phrase.every((word, i) => words[at + i] === word));
}

/** Written without a gap between the words: `patientname`, `nhsnumber`, `telno`. */
function byFolding(heading: string): PrivateKind | undefined {
  const folded = headingWords(heading).join("");
  const plain = folded.replace(/^(?:patients?|pat|pt)/, "").replace(/(?:number|num|no|\d+)$/, "");
  return unparted.get(folded) ?? unparted.get(plain);
}
