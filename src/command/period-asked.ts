import { formatDay } from "../cases/calendar-day.ts";
import { definitionsOf } from "../notebook/notebook-document.ts";
import { formatProblem } from "../problem/format-problem.ts";
import { settingOf } from "../questions/settings/setting-of.ts";
import { withSetting } from "../questions/settings/with-setting.ts";
import type { NotebookSession } from "../recalculation/notebook-session.ts";
import { dayGiven } from "./day-given.ts";

/** A first and a last day, for a setting of dates in the notebook. */
export interface PeriodAsked {
  /** The setting; absent: the notebook's only one, or the one called period. */
  readonly cell?: string;
  /** Days since 1970-01-01. */
  readonly from: number;
  readonly to: number;
}

/** Reads "2024-01-01..2024-12-31", or "audit_year=2024-01-01..2024-12-31". */
export function periodAsked(written: string): PeriodAsked | { readonly why: string } {
  const parts = /^(?:(\w+)=)?(\d{4}-\d\d-\d\d)\.\.(\d{4}-\d\d-\d\d)$/.exec(written);
  const from = dayGiven(parts?.[2] ?? "");
  const to = dayGiven(parts?.[3] ?? "");
  if (from === null || to === null) {
    return { why: `--period ${written} is not two days such as 2024-01-01..2024-12-31` };
  }
  if (from > to) return { why: `--period ${written} ends before it begins` };
  return { ...(parts?.[1] === undefined ? {} : { cell: parts[1] }), from, to };
}

/** "2024-01-01 to 2024-12-31". */
export function periodText({ from, to }: PeriodAsked): string {
  return `${formatDay(from)} to ${formatDay(to)}`;
}

/** Sets the period in an open notebook; gives back why it cannot be set. */
export function setPeriod(
  session: NotebookSession<never>,
  period: PeriodAsked,
): string | undefined {
  const dates = definitionsOf(session.document).filter(
    ({ working }) => settingOf(working)?.type === "dates",
  );
  const names = dates.map(({ name }) => name);
  if (names.length === 0) return "--period: the notebook has no setting of dates, as in dates(…)";
  const only = names.length === 1 ? names[0] : undefined;
  const wanted = period.cell ?? only ?? "period";
  const found = dates.find(({ name }) => name === wanted);
  if (found === undefined) {
    const asked =
      period.cell === undefined ? "say which setting of dates" : `${wanted} is no setting of dates`;
    return `--period: ${asked}; the notebook has ${names.join(", ")}: ${names[0]}=FROM..TO`;
  }
  const working = withSetting(found.working, [period.from, period.to]);
  const problems = session.setWorking(wanted, working);
  return problems.length === 0 ? undefined : problems.map(formatProblem).join("\n");
}
