import type { LowVision } from "../acuity.ts";

/** What a text says as an acuity, before it is known what bare numbers of its column are. */
export type WrittenAcuity =
  | {
      readonly shape: "snellen";
      readonly numerator: number;
      readonly denominator: number;
      readonly letters: number;
    }
  | { readonly shape: "logMAR" | "decimal" | "letters" | "bare"; readonly number: number }
  | { readonly shape: "low"; readonly seen: LowVision; readonly distanceFeet?: number }
  | { readonly shape: "date" }
  | { readonly shape: "unknown" };

const number = String.raw`([+-]?\d+(?:[.,]\d+)?|[+-]?[.,]\d+)`;
const snellen = /^(\d+(?:[.,]\d+)?)\s*\/\s*(\d+(?:[.,]\d+)?)\s*(.*)$/;
const lettersMore = /^\(?([+-])\s*(\d)\)?$/;
const withUnit = new RegExp(
  String.raw`^(?:(log ?mar|dec(?:imal)?|etdrs)[ :=]*)?${number}\s*(log ?mar|dec(?:imal)?|letters?|l|etdrs(?: letters?)?)?$`,
  "i",
);
const date =
  /^(\d{1,2}[- ][a-z]{3}|[a-z]{3}[- ]\d{1,2}|\d{1,2}[/.-]\d{1,2}[/.-]\d{2,4}|\d{4}-\d{2}-\d{2})([- ]\d{2,4})?$/i;

/** Reads a text that is not missing. */
export function writtenAcuity(written: string): WrittenAcuity {
  const text = written
    .replaceAll("\u2212", "-")
    .replace(/^(va|bcva|ucva)[ :=]+/i, "")
    .trim();
  if (date.test(text)) return { shape: "date" };
  return fraction(text) ?? numeric(text) ?? lowVision(text) ?? { shape: "unknown" };
}

/** 6/9, 6/9-2, 20/40+1, 6/9 (-2), 6/9p: letters of the next line more, or of this one fewer. */
function fraction(text: string): WrittenAcuity | undefined {
  const parts = snellen.exec(text);
  if (parts === null) return undefined;
  const [numerator, denominator] = [numberOf(parts[1]!), numberOf(parts[2]!)];
  const rest = parts[3]!.toLowerCase();
  const more = lettersMore.exec(rest);
  const isWhole = rest === "" || /^\(?p(art)?\.?\)?$|^snellen$/.test(rest);
  if ((!isWhole && more === null) || numerator <= 0 || denominator <= 0) return undefined;
  const letters = more === null ? 0 : Number(`${more[1]}${more[2]}`);
  return { shape: "snellen", numerator, denominator, letters };
}

function numeric(text: string): WrittenAcuity | undefined {
  const parts = withUnit.exec(text);
  if (parts === null) return undefined;
  const [before, after] = [shapeOf(parts[1]), shapeOf(parts[3])];
  if (before !== undefined && after !== undefined && before !== after) return undefined;
  return { shape: before ?? after ?? "bare", number: numberOf(parts[2]!) };
}

function shapeOf(unit: string | undefined): "logMAR" | "decimal" | "letters" | undefined {
  if (unit === undefined) return undefined;
  if (/^log/i.test(unit)) return "logMAR";
  return /^dec/i.test(unit) ? "decimal" : "letters";
}

function numberOf(written: string): number {
  return Number(written.replace(",", "."));
}

const lowVisionSpellings: readonly (readonly [LowVision, RegExp])[] = [
  ["NLP", /^(nlp|npl|no (light )?perception( of light)?|no pl|no lp|nil pl)$/],
  ["LP", /^(lp|pl|light perception|perception of light|lp with projection|pl only|lp only)$/],
  ["HM", /^(hm|hand movements?|hand motions?|hmcf)$/],
  ["CF", /^(cf|fc|counting fingers|count fingers|finger counting)$/],
];

/** CF, HM, LP (PL), NLP (NPL), the first two also at a distance: "CF 1m", "CF @ 2 ft". */
function lowVision(text: string): WrittenAcuity | undefined {
  const parts =
    /^(.*?)(?:[\s@]+|\s*at\s+|\s*\/\s*)?(?:(\d+(?:\.\d+)?)\s*(m|cm|ft|feet|foot|')\.?)?$/i.exec(
      text.toLowerCase().replaceAll(/[.]$/g, ""),
    );
  const spelling = parts?.[1]?.trim().replace(/\s*(@|at)$/, "") ?? "";
  const seen = lowVisionSpellings.find(([, pattern]) => pattern.test(spelling))?.[0];
  if (seen === undefined) return undefined;
  if (parts?.[2] === undefined) return { shape: "low", seen };
  return { shape: "low", seen, distanceFeet: Number(parts[2]) * feetIn(parts[3]!) };
}

function feetIn(unit: string): number {
  if (unit === "m") return 1 / 0.3048;
  return unit === "cm" ? 0.01 / 0.3048 : 1;
}
