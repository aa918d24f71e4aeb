import { formatDay } from "../cases/calendar-day.ts";
import { definitionsOf, type NotebookDocument } from "../notebook/notebook-document.ts";
import { listed } from "../questions/answering/wording.ts";
import { settingOf } from "../questions/settings/setting-of.ts";

/**
 * The period that a notebook names, as its title page may say it: where it names days and the sheet
 * is set to others, those are told behind it, so that no report bears a period that it is not of.
 */
export function periodAsSet(document: NotebookDocument): string | undefined {
  const { period } = document.front;
  const ranges = definitionsOf(document).flatMap(({ working }) => {
    const setting = settingOf(working);
    return setting?.type === "dates" ? [[formatDay(setting.from), formatDay(setting.to)]] : [];
  });
  if (period === undefined || ranges.length === 0 || !/\d{4}-\d{2}-\d{2}/.test(period)) {
    return period;
  }
  const isNamed = ranges.some((days) => days.every((day) => period.includes(day)));
  const set = listed(ranges.map((days) => days.join(" to ")));
  return isNamed ? period : `${period}; the sheet is set to ${set}`;
}
