/** Days and months in a text, coarsened to quarters: "2025-11-30" and "November 2025" to "2025 Q4". */
export function coarseDates(text: string): string {
  return text
    .replace(/\b(\d{4})-(\d{2})(?:-\d{2})?\b/g, (whole, year: string, month: string) =>
      Number(month) >= 1 && Number(month) <= 12 ? quarter(year, Number(month)) : whole,
    )
    .replace(written, (_, month: string, year: string) =>
      quarter(year, months.indexOf(month.toLowerCase()) + 1),
    );
}

const months = [
  ...["january", "february", "march", "april", "may", "june"],
  ...["july", "august", "september", "october", "november", "december"],
];

const written = new RegExp(`\\b(?:\\d{1,2} )?(${months.join("|")}) (\\d{4})\\b`, "gi");

function quarter(year: string, month: number): string {
  return `${year} Q${Math.ceil(month / 3)}`;
}
