import type { Word } from "../vocabulary.ts";
import { asFirst, optional, required } from "./parameters.ts";
import { type PlainWord, plainWord } from "./plain-word.ts";

/** Words over numbers. Roots and logarithms have no answer outside their range. */
export const numberWords: readonly Word[] = [
  {
    name: "round",
    meaning: "a number rounded to so many decimals, halves away from zero",
    parameters: [
      required("number", ["number"], "the number to round"),
      optional("digits", ["number"], {
        meaning: "decimals to keep, from -15 (whole quadrillions) to 15",
        whenLeftOut: "0",
      }),
    ],
    answers: "number" as const,
    defaults: [null, 0],
    apply: round,
  },
  oneNumber("round_up", "the least whole number that is not below", Math.ceil),
  oneNumber("round_down", "the greatest whole number that is not above", Math.floor),
  {
    name: "abs",
    meaning: "a number or a length of time without its sign",
    parameters: [required("of", ["number", "duration"], "the number or length of time")],
    answers: asFirst,
    apply: Math.abs,
  },
  oneNumber("sqrt", "the square root", Math.sqrt),
  oneNumber("exp", "e to the power of a number", Math.exp),
  oneNumber("ln", "the natural logarithm", Math.log),
  oneNumber("log10", "the logarithm to base 10", Math.log10),
  {
    name: "remainder",
    meaning: "what a whole division leaves, with the sign of the divisor",
    parameters: [
      required("number", ["number"], "the number to divide"),
      required("by", ["number"], "what it is divided by"),
    ],
    answers: "number" as const,
    apply: (number: number, by: number) => number - by * Math.floor(number / by),
  },
].map((plan) => plainWord(plan as PlainWord));

function oneNumber(name: string, meaning: string, apply: (number: number) => number): PlainWord {
  const parameters = [required("number", ["number"], "the number")];
  return { name, meaning, parameters, answers: "number", apply };
}

/**
 * Rounds the decimal digits of the number as it is written, halves away from zero, so that
 * 2.675 to two decimals is 2.68 although the nearest binary fraction lies below.
 */
function round(number: number, digits: number): number {
  if (digits === 0) return Math.sign(number) * Math.round(Math.abs(number));
  if (!Number.isInteger(digits) || Math.abs(digits) > 15) return Number.NaN;
  const [mantissa = "", exponent = "0"] = String(Math.abs(number)).split("e");
  const whole = Math.round(Number(`${mantissa}e${Number(exponent) + digits}`));
  const [wholeMantissa = "", wholeExponent = "0"] = String(whole).split("e");
  return Math.sign(number) * Number(`${wholeMantissa}e${Number(wholeExponent) - digits}`);
}
