/**
 * Days and months in a text, coarsened to quarters: "2025-11-30", "30/11/2025", "30 Nov 2025",
 * "November 30, 2025" and "November 2025" to "2025 Q4". Numbers alone may stand for day and month
 * either way round: they are coarsened to the year where the two ways are in two quarters.
 */
export function coarseDates(text: string): string {
  return text
    .replace(/\b(\d{4})-(\d{2})(?:-\d{2})?\b/g, (whole, year: string, month: string) =>
      isMonth(Number(month)) ? quarter(year, Number(month)) : whole,
    )
    .replace(/\b(\d{1,2})([/.-])(\d{1,2})\2(\d{4})\b/g, inNumbers)
    .replace(dayBefore, (_, month: string, year: string) => quarter(year, monthNamed(month)))
    .replace(dayAfter, (_, month: string, year: string) => quarter(year, monthNamed(month)));
}

function inNumbers(whole: string, one: string, _: string, other: string, year: string): string {
  const quarters = [Number(other), Number(one)]
    .filter(isMonth)
    .map((month) => quarter(year, month));
  const [first, second = first] = quarters;
  if (first === undefined) return whole;
  return first === second ? first : year;
}

const months = [
  ...["january", "february", "march", "april", "may", "june"],
  ...["july", "august", "september", "october", "november", "december"],
];

const names = `(${months.map((name) => `${name.slice(0, 3)}(?:${name.slice(3)})?`).join("|")}|sept)`;
const day = "\\d{1,2}(?:st|nd|rd|th)?";
/** "30 November 2025", "30th of Nov. 2025", "November 2025". */
const dayBefore = new RegExp(`\\b(?:${day} (?:of )?)?${names}[.,]? (\\d{4})\\b`, "gi");
/** "November 30, 2025". */
const dayAfter = new RegExp(`\\b${names}\\.? ${day},? (\\d{4})\\b`, "gi");

function monthNamed(name: string): number {
  const start = name.slice(0, 3).toLowerCase();
  return months.findIndex((month) => month.startsWith(start)) + 1;
}

function isMonth(month: number): boolean {
  return month >= 1 && month <= 12;
}

function quarter(year: string, month: number): string {
  return `${year} Q${Math.ceil(month / 3)}`;
}
