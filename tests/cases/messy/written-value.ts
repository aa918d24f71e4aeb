import { partsOfDay } from "../../../src/cases/calendar-day.ts";
import type { TrueField, TrueRow } from "./clean-truth.ts";
import type { Mess } from "./mess.ts";
import { writtenAcuity } from "./written-acuity.ts";

/** One value as a department with such habits writes it. */
export function writtenValue(row: TrueRow, field: TrueField, mess: Mess): string {
  const value = row[field];
  if (value === null) return mess.missing;
  if (field === "pvr_grade") return writtenGrade(row, mess.pvr);
  if (field.endsWith("_date")) return writtenDay(value as number, mess.days);
  if (field === "acuity_before") return writtenAcuity(value as number, mess, Number(row.case));
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

/** Grade C with its extent and zone, as the classifications of 1991 and of 1983 write it. */
function writtenGrade(
  { pvr_grade, pvr_clock_hours, pvr_zone }: TrueRow,
  style: Mess["pvr"],
): string {
  if (pvr_grade !== "C" || style === "grades") return String(pvr_grade);
  const hours = pvr_clock_hours ?? 0;
  if (style === "1983") return hours > 9 ? `D${hours - 9}` : `C${1 + (hours % 3)}`;
  const zone = pvr_zone === "anterior" ? "A" : "P";
  return style === "1991" ? `C${zone}${hours}` : `C ${hours} ${zone}`;
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
