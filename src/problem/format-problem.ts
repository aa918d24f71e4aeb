import type { Place, Problem } from "./problem.ts";

/**
 * A problem as text, the same on the page, in the terminal and in the report:
 *
 *     cases.csv, line 12, operation_date: this is not a calendar day.
 *       found     31/02/2025
 *       expected  a day such as 2025-03-31
 *       remedy    correct the value in the file or on the Cases leaf
 */
export function formatProblem(problem: Problem): string {
  const place = formatPlace(problem.place);
  const lines = [place === "" ? problem.message : `${place}: ${problem.message}`];
  if (problem.found !== undefined) lines.push(`  found     ${excerpt(problem.found)}`);
  if (problem.expected !== undefined) lines.push(`  expected  ${problem.expected}`);
  if (problem.remedy !== undefined) lines.push(`  remedy    ${problem.remedy}`);
  return lines.join("\n");
}

/** The place in words, most general part first; empty where nothing is known. */
export function formatPlace(place: Place): string {
  const parts: string[] = [];
  if (place.file !== undefined) parts.push(place.file);
  if (place.cell !== undefined) parts.push(`cell ${place.cell}`);
  if (place.line !== undefined) parts.push(`line ${place.line}`);
  if (place.column !== undefined) parts.push(`character ${place.column}`);
  if (place.field !== undefined) parts.push(place.field);
  return parts.join(", ");
}

/** The value on one line, control characters made visible, long ones cut at 80 characters. */
function excerpt(found: string): string {
  if (found === "") return "(nothing)";
  const visible = [...found]
    .map((character) => (isControl(character) ? "\u00b7" : character))
    .slice(0, 81);
  return visible.length > 80 ? `${visible.slice(0, 80).join("")}\u2026` : visible.join("");
}

function isControl(character: string): boolean {
  const code = character.codePointAt(0) ?? 0;
  return code < 0x20 || (code >= 0x7f && code < 0xa0) || code === 0x2028 || code === 0x2029;
}
