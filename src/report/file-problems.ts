import { groupProblems, type ProblemGroup } from "../cases/group-problems.ts";
import { formatPlace } from "../problem/format-problem.ts";
import type { Problem } from "../problem/problem.ts";
import { csvText } from "./csv-text.ts";
import { html, type Markup } from "./markup.ts";

/** Everything that was wrong with the file of cases, what is the same said once with its lines. */
export function fileProblems(problems: readonly Problem[]): Markup | undefined {
  const groups = groupProblems(problems.filter(({ severity }) => severity !== "note"));
  if (groups.length === 0) return undefined;
  return html`<section class="problems"><h2>What was found in the file</h2>
<table><thead><tr><th scope="col" class="text">where</th><th scope="col" class="text">what is wrong</th>
<th scope="col" class="text">found</th><th scope="col" class="text">what became of it</th></tr></thead>
<tbody>${groups.map(problemRow)}</tbody></table></section>`;
}

function problemRow({ problem, lines }: ProblemGroup): Markup {
  const { severity, message, found, place } = problem;
  const became = severity === "stop" ? "the row is left out" : "kept, to be looked at";
  return html`<tr><th scope="row">${placeText(place, lines)}</th><td class="text">${message}</td>
<td class="text">${found ?? ""}</td><td class="text">${became}</td></tr>\n`;
}

function placeText(place: Problem["place"], lines: readonly number[]): string {
  const { line: _, file: __, ...where } = place;
  const at = lines.length === 0 ? "" : `line${lines.length === 1 ? "" : "s"} ${lines.join(", ")}`;
  return [at, formatPlace(where)].filter((part) => part !== "").join(", ");
}

/** The same as CSV, a line each. */
export function problemsCsv(problems: readonly Problem[]): string {
  const rows = problems.map(({ severity, code, place, message, found, expected, remedy }) => [
    ...[severity, code, String(place.line ?? ""), place.field ?? "", message],
    ...[found ?? "", expected ?? "", remedy ?? ""],
  ]);
  const headings = ["severity", "code", "line", "field", "message", "found", "expected", "remedy"];
  return csvText([headings, ...rows]);
}
