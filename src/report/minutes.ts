import { html, type Markup } from "./markup.ts";
import type { ReportedMinute } from "./report-input.ts";

/** What earlier meetings were told of a cell, each with how it stands now. */
export function minutes(minuted: readonly ReportedMinute[]): Markup | undefined {
  if (minuted.length === 0) return undefined;
  return html`<ul class="minuted">${minuted.map(
    (minute) =>
      html`<li class="${minute.check.verdict.replaceAll(" ", "-")}">${minuteText(minute)}</li>`,
  )}</ul>`;
}

/** "Minuted 2026-03-14: 60 of 442. It is 61 of 442 now; since then: 1 row gone." */
export function minuteText({ day, told, check, because }: ReportedMinute): string {
  const opening = `Minuted ${day}: ${told}.`;
  switch (check.verdict) {
    case "holds":
      return `${opening} It still holds.`;
    case "moved":
      return `${opening} It is ${[`${check.now} now`, ...sinceThen(because)].join("; ")}.`;
    case "cannot be checked":
      return `${opening} It cannot be checked: ${check.why}.`;
  }
}

function sinceThen(because: readonly string[]): readonly string[] {
  return because.length === 0 ? [] : [`since then: ${because.join("; ")}`];
}
