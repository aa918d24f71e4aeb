import { partsOfDay } from "../../../src/cases/calendar-day.ts";
import type { TrueField, TrueRow } from "./clean-truth.ts";
import type { Mess } from "./mess.ts";

/** One value as a department with such habits writes it. */
export function writtenValue(row: TrueRow, field: TrueField, mess: Mess): string {
  const value = row[field];
  if (value === null) return mess.missing;
  if (field.endsWith("_date")) return writtenDay(value as number, mess.days);
  if (field === "acuity_before") return writtenAcuity(value as number, mess);
  if (typeof value === "number") return writtenNumber(value, field, mess);
  if (typeof value === "boolean") return mess.truths[value ? 0 : 1];
  if (typeof value === "string") return spelling(value, mess);
  return value.map((code) => spelling(code, mess)).join(mess.between);
}

function writtenDay(day: number, style: Mess["days"]): string {
  const { year, month, day: dayOfMonth } = partsOfDay(day);
  const [y, m, d] = [String(year), two(month), two(dayOfMonth)];
  const name = months[month - 1]!;
  const written: Readonly<Record<Mess["days"], string>> = {
    iso: `${y}-${m}-${d}`,
    "with a time": `${y}-${m}-${d}T08:30:00`,
    compact: `${y}${m}${d}`,
    "day first": `${d}/${m}/${y}`,
    "month first": `${month}/${dayOfMonth}/${y}`,
    dots: `${dayOfMonth}.${month}.${y}`,
    "two digits": `${d}/${m}/${y.slice(2)}`,
    "name of month": `${dayOfMonth}-${name.slice(0, 3)}-${y}`,
    "month in full": `${name} ${dayOfMonth}, ${y}`,
    // 25569 days lie between 1899-12-30, from which spreadsheets count, and 1970-01-01.
    serial: String(day + 25_569),
  };
  return written[style];
}

const months =
  "January February March April May June July August September October November December".split(
    " ",
  );

function two(number: number): string {
  return String(number).padStart(2, "0");
}

/** By the definitions: decimal acuity is 10 to the minus logMAR, letters are 85 less 50 logMAR. */
function writtenAcuity(logMar: number, { acuity, decimalComma }: Mess): string {
  if (logMar === 1.9) return acuity === "6/x" ? "CF" : "counting fingers";
  const decimal = 10 ** -logMar;
  const written: Readonly<Record<Mess["acuity"], string>> = {
    "6/x": `6/${Math.round(6 / decimal)}`,
    "20/x": `20/${Math.round(20 / decimal)}`,
    logMAR: `${logMar} logMAR`,
    decimal: `${Math.round(decimal * 100) / 100} decimal`,
    letters: `${Math.round(85 - 50 * logMar)} letters`,
  };
  return decimalComma ? written[acuity].replace(".", ",") : written[acuity];
}

const units: Partial<Record<TrueField, string>> = {
  age: " years",
  symptom_days: " d",
  axial_length: "mm",
  refraction: " D",
};

function writtenNumber(value: number, field: TrueField, mess: Mess): string {
  const plain = mess.decimalComma ? String(value).replace(".", ",") : String(value);
  return mess.units ? `${plain}${units[field] ?? ""}` : plain;
}

/** Other ways of writing codes, as departments do (common practice, no source). */
const spellings: Readonly<Record<string, string>> = {
  right: "RE",
  left: "LE",
  phakic: "Phakic",
  pseudophakic: "IOL",
  "horseshoe tear": "HST",
  "round hole": "Round Hole",
  "scleral buckle": "SB",
  vitrectomy: "PPV",
  "vitrectomy with buckle": "PPV + SB",
  SF6: "sf6",
  C3F8: "C3-F8",
  none: "nil",
  attached: "flat",
  detached: "Re-detached",
};

function spelling(code: string, { otherSpellings }: Mess): string {
  return otherSpellings ? (spellings[code] ?? code) : code;
}
