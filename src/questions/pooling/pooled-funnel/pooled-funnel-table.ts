import type { Funnel, FunnelLevel } from "../../../charts/funnel.ts";
import type { AnswerCell, AnswerTable, FigureRecord } from "../../answer.ts";
import { count, percent, pValue } from "../../answering/wording.ts";
import { funnelLevels } from "../../people/funnel/funnel-units.ts";
import type { DepartmentPart } from "../departments.ts";
import { boundsCell, shareText } from "../pooled-answer.ts";
import { rateCorners } from "../pooled-counts.ts";
import type { PlacedDepartment, PlacedDepartments } from "./placed-departments.ts";

/** A row a department, those that withhold their counts with their bounds and unjudged. */
export function pooledFunnelTable({ placed, bounded, areNamed }: PlacedDepartments): AnswerTable {
  return {
    columns: [
      { label: "department", kind: "text" },
      { label: "outcome known", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "failed of known", kind: "number" },
      ...funnelLevels.map((level) => ({
        label: `${Number((100 * level).toFixed(1))}% limits`,
        kind: "interval" as const,
      })),
      { label: "lies", kind: "text" },
      { label: "p (exact)", kind: "number" },
    ],
    rows: [
      ...placed.map(placedRow),
      ...bounded.map((part, at) =>
        boundedRow(areNamed ? part.file.unit : `withholding counts, no. ${at + 1}`, part),
      ),
    ],
  };
}

function placedRow({ name, failed, total, p, limits, positions }: PlacedDepartment): AnswerCell[] {
  const [inner, outer] = positions;
  const lies =
    outer !== "inside" ? `${outer} 99.8%` : inner !== "inside" ? `${inner} 95%` : "inside";
  return [
    { text: name, value: name },
    { text: count(total), value: total },
    { text: count(failed), value: failed },
    { text: percent(failed / total), value: failed / total },
    ...limits.map(({ lower, upper, hasLower, hasUpper }) => ({
      text: `${hasLower ? percent(lower) : "none"}\u00a0–\u00a0${hasUpper ? percent(upper) : "none"}`,
      value: null,
      limits: { lower, upper },
    })),
    { text: lies, value: lies },
    { text: pValue(p).replace("p = ", ""), value: p },
  ];
}

function boundedRow(name: string, part: DepartmentPart): AnswerCell[] {
  const { lowest, highest } = rateCorners([part]);
  const share = (of: typeof lowest) => (of.total === 0 ? null : of.failed / of.total);
  const none: AnswerCell = { text: "–", value: null };
  return [
    { text: name, value: name },
    boundsCell({ least: highest.total, most: lowest.total }),
    boundsCell(part.bounds.failed),
    { text: shareText(share(lowest), share(highest)), value: null },
    ...[none, none],
    { text: "not judged", value: "not judged" },
    none,
  ];
}

/** "all together 17.8%", or "target 13.0%". */
export function aroundWords({ target, isOwnRate }: PlacedDepartments): string {
  return `${isOwnRate ? "all together" : "target"} ${percent(target)}`;
}

export function drawnDepartments(found: PlacedDepartments): Funnel {
  const { placed, target, limitsAt } = found;
  const largest = Math.max(...placed.map(({ total }) => total));
  const step = Math.max(1, Math.ceil(largest / 120));
  const sizes = Array.from({ length: Math.floor(largest / step) }, (_, at) => (at + 1) * step);
  return {
    scale: "share",
    ...{ target, targetLabel: aroundWords(found), counted: "failed" },
    across: "eyes whose outcome is known",
    limits: funnelLevels.map(
      (level, at): FunnelLevel => ({
        level,
        points: sizes.map((size) => {
          const { lower, upper } = limitsAt(size)[at] ?? { lower: 0, upper: 1 };
          return { size, lower, upper };
        }),
      }),
    ),
    points: placed.map(({ name, failed, total }) => ({
      ...{ label: name, size: total, value: failed / total, isOwn: false },
    })),
  };
}

export function pooledFunnelFigures(found: PlacedDepartments): FigureRecord {
  const { placed, together, target, dispersion } = found;
  return {
    headline: `${together.failed} of ${together.total}`,
    target,
    limits: found.limits,
    departments: placed.map(({ name, failed, total, p, limits, positions }) => ({
      ...{ name, failed, total, p, position_95: positions[0] ?? null },
      position_998: positions[1] ?? null,
      lower_95: limits[0]?.lower ?? null,
      upper_95: limits[0]?.upper ?? null,
      lower_998: limits[1]?.lower ?? null,
      upper_998: limits[1]?.upper ?? null,
    })),
    dispersion_p: dispersion?.pValue ?? null,
    phi: dispersion?.phi ?? null,
    tau_squared: dispersion?.tauSquared ?? null,
  };
}
