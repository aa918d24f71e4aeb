import { couldBeDay, luhnSum, passesLuhn, weightedSum } from "./check-digits.ts";

/** A number by which a country's health service or administration knows a person. */
export interface NationalNumber {
  readonly name: string;
  /** How it is written, in capitals, with the signs that may part it. */
  readonly shape: RegExp;
  /** Whether the check digits of a text of that shape are right; of its letters and digits alone. */
  readonly isChecked: (plain: string) => boolean;
  /** The chance that a text of that shape which is something else passes. */
  readonly chance: number;
}

const pps = "WABCDEFGHIJKLMNOPQRSTUV";
const dni = "TRWAGMYFPDXBNJZSQVHLCKE";
const henkilotunnus = "0123456789ABCDEFHJKLMNPRSTUVWXY";
const withoutIAndO = "ABCDEFGHJKLMNPQRSTUVWXYZ";

/** Ten to one: 0 by eleven where the tenth digit is the check digit of the nine before it. */
const tenToOne = [10, 9, 8, 7, 6, 5, 4, 3, 2, 1];

/** A day and month in four digits of six, and then a check digit. */
const dayAndDigit = (366 / 10_000) * 0.1;

/**
 * Numbers that are recognised. Where no publication is named, the scheme is from memory; each was
 * compared with a library of standard numbers (see the tests).
 */
export const nationalNumbers: readonly NationalNumber[] = [
  {
    // NHS Data Dictionary (NHS England), "NHS NUMBER".
    name: "NHS number of England, Wales and the Isle of Man",
    shape: /^\d{3}[ -]?\d{3}[ -]?\d{4}$/,
    isChecked: (plain) => weightedSum(plain, tenToOne) % 11 === 0 && /[^0]/.test(plain),
    chance: 1 / 11,
  },
  {
    // Public Health Scotland, Data Dictionary, "Community Health Index (CHI) Number".
    name: "Community Health Index of Scotland",
    shape: /^\d{6}[ -]?\d{4}$/,
    isChecked: (plain) =>
      couldBeDay(plain.slice(0, 2), plain.slice(2, 4)) && weightedSum(plain, tenToOne) % 11 === 0,
    chance: (366 / 10_000) * (1 / 11),
  },
  {
    name: "National Insurance number of the United Kingdom",
    shape:
      /^(?!BG|GB|KN|NK|NT|TN|ZZ)[A-CEGHJ-PR-TW-Z][A-CEGHJ-NPR-TW-Z] ?\d{2} ?\d{2} ?\d{2} ?[A-D]$/,
    isChecked: () => true,
    chance: 0.01,
  },
  {
    // Department of Social Protection, "Personal Public Service number".
    name: "Personal Public Service number of Ireland",
    shape: /^\d{7}[A-W][ABHWTX]?$/,
    isChecked: (plain) => {
      const second = { A: 1, B: 2, H: 8 }[plain[8] ?? ""] ?? 0;
      const sum = weightedSum(plain, [8, 7, 6, 5, 4, 3, 2]) + 9 * second;
      return pps[sum % 23] === plain[7];
    },
    chance: 1 / 23,
  },
  {
    name: "burgerservicenummer of the Netherlands",
    shape: /^\d{4}\.\d{2}\.\d{3}$|^\d{3}[ .-]?\d{3}[ .-]?\d{3}$/,
    isChecked: (plain) => weightedSum(plain, [9, 8, 7, 6, 5, 4, 3, 2, -1]) % 11 === 0,
    chance: 1 / 11,
  },
  {
    // Forskrift om folkeregistrering; 40 is added to the day or the month of some.
    name: "f\u00f8dselsnummer of Norway",
    shape: /^\d{6}[ -]?\d{5}$/,
    isChecked: (plain) =>
      weightedSum(plain, [3, 7, 6, 1, 8, 9, 4, 5, 2, 1]) % 11 === 0 &&
      weightedSum(plain, [5, 4, 3, 2, 7, 6, 5, 4, 3, 2, 1]) % 11 === 0,
    chance: 1 / 121,
  },
  {
    // Skatteverket, SKV 704; 60 is added to the day of a samordningsnummer.
    name: "personnummer of Sweden",
    shape: /^(?:19|20)?\d{6}[-+ ]?\d{4}$/,
    isChecked: (plain) => {
      const ten = plain.slice(-10);
      const day = Number(ten.slice(4, 6));
      return couldBeDay(String(day > 60 ? day - 60 : day), ten.slice(2, 4)) && passesLuhn(ten);
    },
    chance: 2 * dayAndDigit,
  },
  {
    // Digital and Population Data Services Agency, "The personal identity code".
    name: "henkil\u00f6tunnus of Finland",
    shape: /^\d{6}[-+A-FU-Y]\d{3}[0-9A-FHJ-NPR-Y]$/,
    isChecked: (plain) => {
      const number = Number(plain.slice(0, 6) + plain.slice(-4, -1));
      return henkilotunnus[number % 31] === plain.at(-1);
    },
    chance: 1 / 31,
  },
  {
    // INSEE, "Num\u00e9ro d'inscription au r\u00e9pertoire"; Corsica counts as 19 and 18.
    name: "num\u00e9ro de s\u00e9curit\u00e9 sociale of France",
    shape: /^[1-478] ?\d{2} ?\d{2} ?(?:\d{2}|2[AB]) ?\d{3} ?\d{3} ?\d{2}$/,
    isChecked: (plain) => {
      const number = plain.replace("2A", "19").replace("2B", "18");
      return 97 - (Number(number.slice(0, 13)) % 97) === Number(number.slice(13));
    },
    chance: 1 / 97,
  },
  {
    // Social Code V, section 290: the letter counts as two digits, the Luhn sum itself is the check.
    name: "Krankenversichertennummer of Germany",
    shape: /^[A-Z] ?\d{3} ?\d{3} ?\d{3}$/,
    isChecked: (plain) => {
      const letter = String(plain.charCodeAt(0) - 64).padStart(2, "0");
      return luhnSum(`${letter}${plain.slice(1, 9)}`) % 10 === Number(plain[9]);
    },
    chance: 0.1,
  },
  {
    name: "documento nacional de identidad of Spain",
    shape: /^[XYZ]?\d{7,8}-?[A-HJ-NP-TV-Z]$/,
    isChecked: (plain) => {
      const number = plain.slice(0, -1).replace("X", "0").replace("Y", "1").replace("Z", "2");
      return number.length === 8 && dni[Number(number) % 23] === plain.at(-1);
    },
    chance: 1 / 23,
  },
  {
    name: "codice fiscale of Italy",
    shape: /^[A-Z]{6} ?\d{2}[A-EHLMPRST]\d{2} ?[A-Z]\d{3}[A-Z]$/,
    isChecked: () => true,
    chance: 0.01,
  },
  {
    // Who was born since 2000 has a 2 set before the nine digits.
    name: "national register number of Belgium",
    shape: /^\d{2}\.?\d{2}\.?\d{2}[ -]?\d{3}[ .]?\d{2}$/,
    isChecked: (plain) => {
      const [number, check] = [Number(plain.slice(0, 9)), Number(plain.slice(9))];
      return [number, 2e9 + number].some((counted) => 97 - (counted % 97) === check);
    },
    chance: 2 / 97,
  },
  {
    name: "PESEL of Poland",
    shape: /^\d{11}$/,
    isChecked: (plain) => {
      const month = String(Number(plain.slice(2, 4)) % 20);
      const sum = weightedSum(plain, [1, 3, 7, 9, 1, 3, 7, 9, 1, 3, 1]);
      return couldBeDay(plain.slice(4, 6), month) && sum % 10 === 0;
    },
    chance: 5 * dayAndDigit,
  },
  {
    // The check digit is that of GS1's thirteen digits.
    name: "AHV number of Switzerland",
    shape: /^756\.?\d{4}\.?\d{4}\.?\d{2}$/,
    isChecked: (plain) => weightedSum(plain, [1, 3, 1, 3, 1, 3, 1, 3, 1, 3, 1, 3, 1]) % 10 === 0,
    chance: 0.1,
  },
  {
    // Social insurance and Ontario's health card.
    name: "social insurance and health card numbers of Canada",
    shape: /^\d{3}[ -]?\d{3}[ -]?\d{3}$|^\d{4}[ -]?\d{3}[ -]?\d{3}(?:[ -]?[A-Z]{2})?$/,
    isChecked: (plain) => passesLuhn(plain.replaceAll(/\D/g, "")),
    chance: 0.1,
  },
  {
    name: "Medicare number of Australia",
    shape: /^[2-6]\d{3}[ -]?\d{5}[ -]?\d(?:[ /-]?\d)?$/,
    isChecked: (plain) => weightedSum(plain, [1, 3, 7, 9, 1, 3, 7, 9]) % 10 === Number(plain[8]),
    chance: 0.1,
  },
  {
    // HISO 10046, the form of three letters and four digits.
    name: "National Health Index of New Zealand",
    shape: /^[A-HJ-NP-Z]{3} ?\d{4}$/,
    isChecked: (plain) => {
      const values = [...plain.slice(0, 6)].map((sign) =>
        /\d/.test(sign) ? Number(sign) : withoutIAndO.indexOf(sign) + 1,
      );
      const rest = values.reduce((sum, value, i) => sum + value * (7 - i), 0) % 11;
      return rest > 0 && (11 - rest) % 10 === Number(plain[6]);
    },
    chance: 1 / 11,
  },
  {
    // Social Security Administration: parted 3-2-4, never 000, 666 or 9xx; no check digit.
    name: "social security number of the United States",
    shape: /^(?!000|666|9)\d{3}-(?!00)\d{2}-(?!0000)\d{4}$/,
    isChecked: () => true,
    chance: 0.01,
  },
];
