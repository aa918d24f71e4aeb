import fc from "fast-check";

/**
 * Texts of workings whose kinds fit, over the names n and k (numbers), t and u (truths), s (a
 * text), d and e (days), l (a length of time) and c (texts).
 */
export const randomExpression: fc.Arbitrary<string> = fc.letrec<Kinds>((tie) => {
  const sub = { number: tie("number"), truth: tie("truth"), text: tie("text") };
  const more = { day: tie("day"), length: tie("length"), codes: tie("codes") };
  const { number, truth, text } = sub;
  const { day, length, codes } = more;
  const level = { maxDepth: 3, depthSize: "small" } as const;
  const choose = <T>(of: fc.Arbitrary<T>) =>
    fc.tuple(truth, of, of).map(([a, b, c]) => `(if ${a} then ${b} else ${c})`);
  const compared = (of: fc.Arbitrary<string>, signs: readonly string[]) =>
    fc.tuple(of, fc.constantFrom(...signs), of).map(([a, sign, b]) => `(${a} ${sign} ${b})`);
  const ordered = ["=", "!=", "<", "<=", ">", ">="];
  return {
    any: fc.oneof(number, truth, text, day, length),
    number: fc.oneof(
      level,
      fc.constantFrom("n", "k", "n", "k", "2", "0", "50%"),
      compared(number, ["+", "-", "*", "/"]),
      number.map((a) => `(-${a})`),
      fc.tuple(number, fc.constantFrom("2", "-1", "k")).map(([a, b]) => `(${a})^(${b})`),
      number.map((a) => `round(${a}, digits: 1)`),
      fc.tuple(number, number).map(([a, b]) => `min(${a}, ${b})`),
      fc.tuple(number, number).map(([a, b]) => `sum([${a}, ${b}, 1])`),
      fc.tuple(number, number).map(([a, b]) => `first_known(${a}, ${b})`),
      number.map((a) => `sqrt(${a})`),
      day.map((a) => `year(${a})`),
      length.map((a) => `days_in(${a})`),
      fc.tuple(day, day).map(([a, b]) => `age_at(${a}, ${b})`),
      fc.tuple(length, length).map(([a, b]) => `(${a} / ${b})`),
      text.map((a) => `length(${a})`),
      codes.map((a) => `length(${a})`),
      choose(number),
    ),
    truth: fc.oneof(
      level,
      fc.constantFrom("t", "u", "t", "u", "true", "missing"),
      compared(number, ordered),
      compared(day, ordered),
      compared(length, ordered),
      compared(text, ["=", "!="]),
      compared(truth, ["and", "or", "=", "!="]),
      truth.map((a) => `(not ${a})`),
      fc.oneof(number, truth, text, day).map((a) => `(${a} is missing)`),
      fc.oneof(number, truth, text, day).map((a) => `(${a} is known)`),
      fc.tuple(number, number, number).map(([a, b, c]) => `(${a} between ${b} and ${c})`),
      fc.tuple(day, day, day).map(([a, b, c]) => `(${a} is not between ${b} and ${c})`),
      fc.tuple(text, text).map(([a, b]) => `(${a} is one of [${b}, "a", missing])`),
      text.map((a) => `(${a} is not one of ["a", "ab"])`),
      number.map((a) => `(${a} is one of [])`),
      fc.tuple(text, codes).map(([a, b]) => `(${a} is one of ${b})`),
      fc.tuple(text, codes).map(([a, b]) => `contains(${b}, ${a})`),
    ),
    text: fc.oneof(
      level,
      fc.constantFrom("s", "s", '"a"', '"b"'),
      text.map((a) => `upper(${a})`),
      fc.tuple(text, text).map(([a, b]) => `joined(${a}, ${b})`),
      day.map((a) => `day_as_text(${a})`),
      choose(text),
    ),
    day: fc.oneof(
      level,
      fc.constantFrom("d", "e", "d", "e", "2001-02-03"),
      fc.tuple(day, length).map(([a, b]) => `(${a} + ${b})`),
      fc.tuple(day, length).map(([a, b]) => `(${a} - ${b})`),
      fc.tuple(day, number).map(([a, b]) => `months_after(${a}, ${b})`),
      fc.tuple(day, day).map(([a, b]) => `max(${a}, ${b})`),
      choose(day),
    ),
    length: fc.oneof(
      level,
      fc.constantFrom("l", "l", "90 days", "3 months"),
      compared(length, ["+", "-"]),
      compared(day, ["-"]),
      length.map((a) => `(-${a})`),
      fc.tuple(number, length).map(([a, b]) => `(${a} * ${b})`),
      fc.tuple(length, number).map(([a, b]) => `(${a} / ${b})`),
      choose(length),
    ),
    codes: fc.oneof(
      level,
      fc.constantFrom("c", "c", '["a", "b"]'),
      fc.tuple(text, text).map(([a, b]) => `[${a}, ${b}]`),
    ),
  };
}).any;

type Kinds = Record<"any" | "number" | "truth" | "text" | "day" | "length" | "codes", string>;
