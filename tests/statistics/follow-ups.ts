/** The survival data sets as columns that the estimators take. */
import { readColumns } from "./reference-data.ts";

/** Time and event columns of a data set; `happened` is the code of an event. */
export function followUps(file: string, time: string, event: string, happened = "1") {
  const columns = readColumns(file);
  return {
    time: columns[time]!.map(Number),
    event: columns[event]!.map((code) => Number(code === happened)),
  };
}

/** The 6-MP arm of Freireich 1963. */
export function sixMercaptopurine() {
  return arm("6-MP");
}

/** The placebo arm of Freireich 1963. */
export function placebo() {
  return arm("placebo");
}

function arm(name: string) {
  const { group } = readColumns("freireich.csv");
  const all = followUps("freireich.csv", "time", "status");
  const pick = <T>(values: T[]) => values.filter((_, i) => group![i] === name);
  return { time: pick(all.time), event: pick(all.event) };
}
