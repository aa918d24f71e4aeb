import { type EffectIntervals, pointsText, ratioText } from "../../../charts/effect-intervals.ts";
import type { AnswerCell, AnswerTable, FigureRecord } from "../../answer.ts";
import { boundsText } from "../pooled-answer.ts";
import {
  type DepartmentStratum,
  type DifferenceParts,
  informative,
  type Measure,
  measuresOver,
} from "./strata-of-departments.ts";

/** The measures over departments, then the odds ratio within each. */
export function differenceTable(parts: DifferenceParts): AnswerTable {
  const { names } = parts;
  const strata = informative(parts.found);
  const { difference, ratio, odds } = measuresOver(strata);
  return {
    columns: [
      { label: "measure", kind: "text" },
      { label: `${names[0]}, failed of known`, kind: "number" },
      { label: `${names[1]}, failed of known`, kind: "number" },
      { label: "estimate (95%)", kind: "estimate" },
    ],
    rows: [
      ...[difference, ratio, odds].map((measure) => [
        labelCell(`${measure.name} over departments`),
        ...countCells(strata),
        measureCell(measure),
      ]),
      ...numbered(parts).map(({ label, stratum }) => [
        labelCell(`odds ratio within ${label}`),
        ...countCells([stratum]),
        measureCell(measuresOver([stratum]).odds),
      ]),
    ],
  };
}

function labelCell(text: string): AnswerCell {
  return { text, value: text };
}

/** "12 of 40", or "5 to 9 of 40", of either group. */
function countCells(strata: readonly DepartmentStratum[]): AnswerCell[] {
  return (["first", "second"] as const).map((side) => ({
    text: countText(strata, side),
    value: null,
  }));
}

function countText(strata: readonly DepartmentStratum[], side: "first" | "second"): string {
  const ends = strata.map(({ least, most }) => [least[side].failed, most[side].failed]);
  const failed = {
    least: ends.reduce((sum, each) => sum + Math.min(...each), 0),
    most: ends.reduce((sum, each) => sum + Math.max(...each), 0),
  };
  const total = strata.reduce((sum, { least }) => sum + least[side].total, 0);
  return `${boundsText(failed)} of ${boundsText({ least: total, most: total })}`;
}

/** Departments that can be compared, by their size unless they are named. */
function numbered({ found, areNamed }: DifferenceParts) {
  const size = ({ least: { first, second } }: DepartmentStratum) => first.total + second.total;
  const strata = informative(found);
  const ordered = areNamed ? strata : [...strata].sort((a, b) => size(b) - size(a));
  return ordered.map((stratum, at) => ({
    label: areNamed ? stratum.unit : `department no. ${at + 1}`,
    stratum,
  }));
}

/** The odds ratio within each department, and over all of them in common. */
export function drawnOdds(parts: DifferenceParts): EffectIntervals {
  const { names } = parts;
  const strata = informative(parts.found);
  const row = (label: string, of: readonly DepartmentStratum[]) => {
    const measure = measuresOver(of).odds;
    const isOne = isOneEstimate(measure);
    return {
      label: isOne ? label : `${label} (middle of its bounds)`,
      count: `${countText(of, "first")} | ${countText(of, "second")}`,
      estimate: middleOf(measure),
      lower: measure.least?.lower ?? null,
      upper: measure.most?.upper ?? null,
    };
  };
  return {
    scale: "ratio",
    measure: "odds ratio",
    counted: "failed of known",
    sides: { below: `${names[0]} failed less`, above: `${names[0]} failed more` },
    rows: [
      ...numbered(parts).map(({ label, stratum }) => row(label, [stratum])),
      { ...row("over departments", strata), isSummary: true },
    ],
  };
}

/** Half-way on the scale of ratios. */
function middleOf({ least, most }: Measure): number | null {
  if (least === null || most === null) return null;
  return isOneEstimate({ least, most })
    ? least.estimate
    : Math.sqrt(least.estimate * most.estimate);
}

function isOneEstimate({ least, most }: Pick<Measure, "least" | "most">): boolean {
  return least?.estimate === most?.estimate;
}

export function measureCell(measure: Measure): AnswerCell {
  const { least, most } = measure;
  if (least === null || most === null) return { text: "not estimable", value: null };
  const isOne = Math.abs(most.estimate - least.estimate) < 1e-12;
  // As everywhere: a difference in percentage points, a ratio by its size.
  const isDifference = measure.name.endsWith("difference");
  const told = isDifference ? pointsText : ratioText;
  const range = `${told(least.estimate)} to ${told(most.estimate)}`;
  const value = isOne ? told(least.estimate) : range;
  return {
    text: `${value}${isDifference ? " points" : ""} (95% interval ${told(least.lower)} to ${told(most.upper)})`,
    value: isOne ? least.estimate : null,
    limits: { lower: least.lower, upper: most.upper },
  };
}

export function measureFigures({ name, least, most }: Measure): FigureRecord {
  return {
    measure: name,
    lowest: least?.estimate ?? null,
    highest: most?.estimate ?? null,
    lower: least?.lower ?? null,
    upper: most?.upper ?? null,
  };
}
