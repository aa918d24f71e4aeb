import type { CalibrationPoints } from "../../charts/calibration-points.ts";
import { calibrationCurve } from "../../statistics/calibration-curve.ts";
import type { RiskGroup } from "../../statistics/hosmer-lemeshow.ts";
import type { AnswerTable, FigureRecord } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { estimateCell } from "../answering/estimate-cell.ts";
import { shareInterval, shareMethod } from "../answering/share-interval.ts";
import { percent } from "../answering/wording.ts";
import type { RiskFit } from "./fit-risk.ts";

interface CalibratedGroup extends RiskGroup {
  readonly eyes: readonly number[];
  readonly failedEyes: readonly number[];
}

/** Eyes gathered by predicted risk, lowest first, as the Hosmer–Lemeshow test has them. */
function groupsOf({ calibration, data, predicted, outcome }: RiskFit): CalibratedGroup[] {
  const groups = calibration?.groups ?? [];
  const group = Array.from(predicted, (risk) => {
    const found = groups.findIndex(({ upTo }) => risk <= upTo);
    return found < 0 ? groups.length - 1 : found;
  });
  return groups.map((each, position) => {
    const eyes = data.eyes.filter((_, row) => group[row] === position);
    const failedEyes = data.eyes.filter((_, row) => group[row] === position && outcome[row]);
    const interval = shareInterval(data.record, failedEyes, eyes) ?? each.interval;
    return { ...each, eyes, failedEyes, interval };
  });
}

/** One row a group of predicted risk: eyes, predicted and observed failures. */
export function calibrationTable(fit: RiskFit, picks: PickBook): AnswerTable {
  return {
    columns: [
      { label: "predicted risk up to", kind: "number" },
      { label: "eyes", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "failures predicted", kind: "number" },
      { label: "mean predicted risk", kind: "number" },
      { label: `failed (95% ${shareMethod(fit.data.record, fit.data.eyes)})`, kind: "estimate" },
    ],
    rows: groupsOf(fit).map(
      ({ upTo, total, observed, expected, interval, eyes, failedEyes }, i) => [
        { text: percent(upTo), value: upTo },
        picks.cell(`c${i}`, `predicted risk up to ${percent(upTo)}`, eyes),
        picks.cell(`c${i}:failed`, `predicted risk up to ${percent(upTo)}, failed`, failedEyes),
        { text: expected.toFixed(1), value: expected },
        { text: percent(expected / total), value: expected / total },
        estimateCell(observed / total, interval),
      ],
    ),
  };
}

export function calibrationDrawing(fit: RiskFit, picks: PickBook): CalibrationPoints {
  return {
    counted: "failed",
    ...smoothed(fit),
    points: groupsOf(fit).map(({ total, observed, expected, interval, eyes, upTo }, i) => {
      const pick = picks.add(`c${i}`, `predicted risk up to ${percent(upTo)}`, eyes);
      return {
        eyes: total,
        events: observed,
        predicted: expected / total,
        observed: observed / total,
        lower: interval.lower,
        upper: interval.upper,
        ...(pick === undefined ? {} : { pick }),
      };
    }),
  };
}

/** Under so many failures the shape of a smooth curve is chance. */
const fewestForCurve = 20;

function smoothed({ outcome, predicted, failures }: RiskFit): Pick<CalibrationPoints, "curve"> {
  const curve = failures < fewestForCurve ? null : calibrationCurve(outcome, predicted);
  if (curve === null || curve.predicted.length < 3) return {};
  return {
    curve: Array.from(curve.predicted, (risk, at) => ({
      predicted: risk,
      observed: curve.observed[at] ?? 0,
    })),
  };
}

/** The ends of the smooth curve, which the chart's alternative tells. */
export function smoothedFigures(fit: RiskFit): FigureRecord {
  const curve = smoothed(fit).curve ?? [];
  return {
    smoothed_at_least: curve[0]?.observed ?? null,
    smoothed_at_most: curve.at(-1)?.observed ?? null,
  };
}

export function calibrationFigures(fit: RiskFit): FigureRecord[] {
  return groupsOf(fit).map(({ total, observed, expected, upTo, interval }) => ({
    up_to: upTo,
    eyes: total,
    failed: observed,
    predicted: expected,
    observed: observed / total,
    lower: interval.lower,
    upper: interval.upper,
  }));
}
