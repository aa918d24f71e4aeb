import type { MonitoringPanel } from "../../../charts/monitoring.ts";
import type { AnswerTable, FigureRecord } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { estimateCell } from "../../answering/estimate-cell.ts";
import { percent } from "../../answering/wording.ts";
import type { CountedPeriod } from "./counted-period.ts";

/** A row a period, every count leading to its eyes. */
export function periodTable(
  label: string,
  periods: readonly CountedPeriod[],
  picks: PickBook,
): AnswerTable {
  return {
    columns: [
      { label, kind: "text" },
      { label: "outcome known", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "failed of known (95% Wilson)", kind: "estimate" },
      { label: "limits of chance", kind: "interval" },
      { label: "lies", kind: "text" },
      { label: "not known", kind: "number" },
      { label: "too recent", kind: "number" },
    ],
    rows: periods.map(({ label: name, judged, failedEyes, interval, point }, i) => {
      const openable = (what: string, eyes: readonly number[]) =>
        picks.cell(`t${i}:${what}`, `${name}, ${what}`, eyes);
      const lies = point.position ?? "–";
      return [
        { text: name, value: name },
        openable("known", judged.known),
        openable("failed", failedEyes),
        estimateCell(point.rate, interval),
        {
          text: `${point.hasLower ? percent(point.lower) : "none"}\u00a0–\u00a0${point.hasUpper ? percent(point.upper) : "none"}`,
          value: null,
          limits: { lower: point.lower, upper: point.upper },
        },
        { text: lies, value: lies },
        openable("not known", judged.unknown),
        openable("too recent", judged.tooRecent),
      ];
    }),
  };
}

/** The rates as points in their limits, under the picks of the table. */
export function periodPanel(
  periods: readonly CountedPeriod[],
  about: Pick<MonitoringPanel, "title" | "references" | "breaks">,
): MonitoringPanel {
  const drawn = periods.flatMap(({ point, failedEyes, label }, i) =>
    point.rate === null ? [] : [{ point, failedEyes, label, i, rate: point.rate }],
  );
  return {
    ...about,
    kind: "share",
    lines: stretches(
      drawn.map(({ i, rate }) => ({ at: i + 1, value: rate })),
      about.breaks.map(({ at }) => at),
    ),
    dots: drawn.map(({ i, rate, failedEyes }) => ({
      at: i + 1,
      value: rate,
      tone: "failed",
      ...(failedEyes.length === 0 ? {} : { pick: `t${i}:failed` }),
    })),
    band: drawn.map(({ i, point }) => ({
      at: i + 1,
      lower: point.hasLower ? point.lower : null,
      upper: point.hasUpper ? point.upper : null,
    })),
    signals: drawn
      .filter(({ point }) => point.position !== "inside")
      .map(({ i, rate, label }) => ({ at: i + 1, value: rate, label, pick: `t${i}:known` })),
  };
}

/** A line on either side of every cut. */
function stretches(
  points: readonly { readonly at: number; readonly value: number }[],
  cuts: readonly number[],
): MonitoringPanel["lines"] {
  const ends = [...cuts, Number.POSITIVE_INFINITY];
  return ends.map((end, i) => ({
    points: points.filter(({ at }) => at < end && at > (ends[i - 1] ?? 0)),
  }));
}

export function periodFigures(periods: readonly CountedPeriod[]): FigureRecord[] {
  return periods.map(({ label, judged, failedEyes, interval, point, centre }) => ({
    period: label,
    eyes: judged.known.length,
    failed: failedEyes.length,
    rate: point.rate,
    lower: interval?.lower ?? null,
    upper: interval?.upper ?? null,
    centre,
    limit_lower: point.lower,
    limit_upper: point.upper,
    position: point.position,
    not_known: judged.unknown.length,
  }));
}
