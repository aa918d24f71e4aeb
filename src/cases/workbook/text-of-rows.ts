/**
 * Rows as delimited text (RFC 4180), a line for each, to be read like any other file. A remark
 * below the table stands by itself, as it does in a text file, without delimiters after it.
 */
export function textOfRows(rows: readonly (readonly string[])[]): string {
  const table = rows.findLastIndex((row) => row.some((value, i) => i > 0 && value !== ""));
  const lines = rows.map((row, i) => (i > table ? row.slice(0, 1) : row).map(quoted).join(","));
  return lines.length === 0 ? "" : `${lines.join("\n")}\n`;
}

/** Quoted wherever it holds a sign that some file uses as a delimiter. */
function quoted(value: string): string {
  return /[",;|]/.test(value) ? `"${value.replaceAll('"', '""')}"` : value;
}
