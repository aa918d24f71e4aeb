import { isMissing } from "../missing-value.ts";
import { isAddress, isEMail, isPostcode, isTelephoneNumber } from "./contact-details.ts";
import { enoughValues } from "./enough-values.ts";
import { type NationalNumber, nationalNumbers } from "./national-numbers.ts";
import type { PrivateKind } from "./private-kind.ts";

/** What the different values of a column tell of a person, or undefined. */
export function privateByValues(different: readonly string[]): PrivateKind | undefined {
  const all = enoughValues(different).filter((value) => !isMissing(value));
  const known = { length: all.length, values: all.filter((value) => !isMeasured(value)) };
  if (known.values.length === 0) return undefined;
  const sure = contactsIn(known, surely);
  if (sure !== undefined) return sure;
  const numbers = known.values.filter(hasFourDigits).map((value) => value.toUpperCase());
  const isNumber = nationalNumbers.some((number) => areNumbers(numbers, known.length, number));
  return isNumber ? "health-service number" : contactsIn(known, likely);
}

/** The values that may tell of a person, and how many there are with those that cannot. */
interface KnownValues {
  readonly length: number;
  readonly values: readonly string[];
}

/** Whether a value is a decimal number, as of something measured: no contact and no scheme is written so. */
function isMeasured(value: string): boolean {
  return /^-?(0|[1-9]\d{0,5})\.\d+$/.test(value);
}

interface Contact {
  readonly kind: PrivateKind;
  readonly fits: (value: string) => boolean;
  /** The share of the different values that must fit. */
  readonly share: number;
}

/** One e-mail address in five tells: nothing else looks like it. The others need half. */
const surely: readonly Contact[] = [
  { kind: "e-mail address", fits: isEMail, share: 0.2 },
  { kind: "postcode", fits: isPostcode, share: 0.5 },
];

/** Asked where the numbers are no national ones: their groups are alike. */
const likely: readonly Contact[] = [
  { kind: "telephone number", fits: isTelephoneNumber, share: 0.5 },
  { kind: "address", fits: isAddress, share: 0.5 },
];

function contactsIn(known: KnownValues, contacts: readonly Contact[]) {
  return contacts.find(({ fits, share }) => {
    const fitting = known.values.filter(fits).length;
    return fitting > 0 && fitting >= share * known.length;
  })?.kind;
}

/** The share of a column's values that must be of a scheme; fewer are taken out one by one. */
const leastShare = 0.1;
/** Chance at most of as many right check digits in numbers that are something else. */
const mostChance = 0.1;

/**
 * Whether a column holds numbers of a scheme: at least half of those of its shape have the right
 * check digit, and so many would be luck less than one time in ten. With England's check digit,
 * right by luck once in eleven, a single number in a column tells, of two both must be right, and
 * of thirty numbers of another kind some three are right and tell nothing. Where a scheme is right
 * once in ten, one number alone tells nothing.
 */
function areNumbers(
  numbers: readonly string[],
  known: number,
  { shape, isChecked, chance }: NationalNumber,
): boolean {
  const shaped = numbers.filter((value) => shape.test(value));
  const checked = shaped.filter((value) => isChecked(value.replaceAll(/[^A-Z\d]/g, ""))).length;
  if (checked * 2 < shaped.length || checked < leastShare * known) return false;
  return checked > 0 && chanceOfAtLeast(checked, shaped.length, chance) < mostChance;
}

/** No scheme has fewer. */
function hasFourDigits(value: string): boolean {
  let digits = 0;
  for (let i = 0; i < value.length; i++) {
    const code = value.charCodeAt(i);
    if (code >= 48 && code <= 57) digits++;
  }
  return digits >= 4;
}

/** Upper tail of the binomial distribution, summed from its terms; 0 where it is too small. */
function chanceOfAtLeast(least: number, count: number, chance: number): number {
  let term = chance ** count;
  let sum = 0;
  for (let successes = count; successes >= least; successes--) {
    sum += term;
    term *= (successes / (count - successes + 1)) * ((1 - chance) / chance);
  }
  return sum;
}
