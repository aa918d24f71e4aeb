/**
 * Rows as CSV (RFC 4180): lines end with CRLF, quotes are doubled. A text that a spreadsheet would
 * take for a formula is preceded by an apostrophe; a number never is.
 */
export function csvText(rows: readonly (readonly (number | string)[])[]): string {
  return rows.map((row) => `${row.map(field).join(",")}\r\n`).join("");
}

function field(value: number | string): string {
  if (typeof value === "number") return String(value);
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
