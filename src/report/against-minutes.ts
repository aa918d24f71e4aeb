import type { MinutedCheck } from "../recalculation/check-minuted.ts";
import { html, type Markup } from "./markup.ts";
import type { ReportedCell, ReportInput } from "./report-input.ts";

/** A number that a meeting was told, and how it stands now. */
export interface AgainstMinute {
  readonly cell: string;
  /** "2026-03-14" */
  readonly day: string;
  readonly told: string;
  /** What it is now; why it cannot be said, where it cannot. */
  readonly now: string;
  readonly verdict: MinutedCheck["verdict"];
  /** What is different from then, in words; empty where it holds, or that is not known. */
  readonly because: readonly string[];
}

/** Every minuted number of the report in the order of the sheet; those that moved come first. */
export function againstMinutes({ cells }: ReportInput): AgainstMinute[] {
  const all = cells.flatMap(ofCell);
  const isMoved = ({ verdict }: AgainstMinute) => verdict !== "holds";
  return [...all.filter(isMoved), ...all.filter((each) => !isMoved(each))];
}

function ofCell({ name, minuted }: ReportedCell): AgainstMinute[] {
  return minuted.map(({ day, told, check, because }) => ({
    ...{ cell: name, day, told, verdict: check.verdict, because },
    now: nowOf(check, told),
  }));
}

function nowOf(check: MinutedCheck, told: string): string {
  if (check.verdict === "moved") return check.now;
  return check.verdict === "holds" ? told : check.why;
}

/** What is said of why: the differences, that it holds, or that nobody knows. */
export function becauseText({ verdict, because }: AgainstMinute): string {
  if (because.length > 0) return because.join("; ");
  if (verdict === "holds") return "";
  return verdict === "moved" ? "not known" : "";
}

export const againstMinutesHeading = "Against what was minuted";

export function againstMinutesSection(lines: readonly AgainstMinute[]): Markup | undefined {
  if (lines.length === 0) return undefined;
  return html`<section class="against"><h2 id="against">${againstMinutesHeading}</h2>
<table><thead><tr><th scope="col">answer</th><th scope="col" class="text">minuted</th>
<th scope="col" class="text">told then</th><th scope="col" class="text">now</th>
<th scope="col" class="text">stands</th><th scope="col" class="text">because</th></tr></thead>
<tbody>${lines.map(minuteLine)}</tbody></table></section>`;
}

function minuteLine(line: AgainstMinute): Markup {
  const { cell, day, told, now, verdict } = line;
  return html`<tr class="${verdict.replaceAll(" ", "-")}"><th scope="row"><a href="#${cell}">${cell.replaceAll("_", " ")}</a></th>
<td class="text">${day}</td><td class="text">${told}</td><td class="text">${now}</td>
<td class="text">${verdict}</td><td class="text">${becauseText(line)}</td></tr>\n`;
}
