import type { Funnel, FunnelLevel } from "../../../charts/funnel.ts";
import type { FigureRecord } from "../../answer.ts";
import { percent } from "../../answering/wording.ts";
import type { Expectation } from "../expectation.ts";
import { type FunnelDesign, type FunnelUnits, funnelLevels } from "./funnel-units.ts";
import type { ShownUnit } from "./shown-units.ts";

/** What the sentence, the table and the chart of a funnel are all made from. */
export interface FunnelParts {
  readonly design: FunnelDesign;
  readonly found: FunnelUnits;
  /** In the order shown: of codes, or where names are hidden of the number of eyes. */
  readonly shown: readonly ShownUnit[];
  readonly label: string;
  readonly expectation: Expectation;
  readonly source: string | undefined;
  readonly areNamesHidden: boolean;
  /** The others stand as one row, or as none. */
  readonly areOthersTogether: boolean;
  /** How many people there are with eyes to count. */
  readonly people: number;
  readonly mine: string | undefined;
  readonly silent: readonly number[];
}

/** "target 13.0%" or "expected". */
export function targetWords({ design }: FunnelParts): string {
  if (design.scale === "ratio") return "as many as expected";
  return design.isOwnRate
    ? `all together ${percent(design.target)}`
    : `target ${percent(design.target)}`;
}

export function drawnFunnel(parts: FunnelParts): Funnel {
  const { design, shown, found } = parts;
  const largest = Math.max(1, ...shown.map(({ size }) => size));
  return {
    scale: design.scale,
    target: design.target,
    targetLabel: targetWords(parts),
    across: design.scale === "share" ? "eyes whose outcome is known" : "expected failures",
    counted: "failed",
    limits: funnelLevels.map(
      (level, i): FunnelLevel => ({
        level,
        points: sizesUpTo(largest, design.scale).map((size) => {
          const { lower, upper } = found.limitsAt(size)[i] ?? { lower: 0, upper: 1 };
          return { size, lower, upper };
        }),
      }),
    ),
    points: shown.map(({ name, size, value, isOwn, isOpen, failedEyes }, position) => ({
      ...(isOpen ? { label: name } : {}),
      size,
      value,
      isOwn,
      ...(isOpen && failedEyes.length > 0 ? { pick: `u${position}:failed` } : {}),
    })),
  };
}

/** Whole eyes, or expected failures in steps, thinned to about 120. */
function sizesUpTo(largest: number, scale: "share" | "ratio"): number[] {
  const least = scale === "share" ? 2 : 0.5;
  const step = scale === "share" ? Math.max(1, Math.ceil(largest / 120)) : largest / 120;
  const number = Math.floor((largest - least) / step);
  return Array.from({ length: Math.max(1, number) + 1 }, (_, i) => least + i * step);
}

export function funnelFigures(parts: FunnelParts): FigureRecord {
  const { design, found, shown } = parts;
  const { judged } = design;
  const failed = judged.known.filter(judged.hasFailed).length;
  const own = shown.find(({ isOwn }) => isOwn);
  return {
    eyes: judged.known.length,
    failed,
    headline: `${failed} of ${judged.known.length}`,
    headline_rate: judged.known.length === 0 ? null : failed / judged.known.length,
    target: design.target,
    people: parts.people,
    above_95: numberAt(parts, 0, "above"),
    below_95: numberAt(parts, 0, "below"),
    above_998: numberAt(parts, 1, "above"),
    below_998: numberAt(parts, 1, "below"),
    dispersion_chi_square: found.dispersion?.statistic ?? null,
    dispersion_df: found.dispersion?.degreesOfFreedom ?? null,
    dispersion_p: found.dispersion?.pValue ?? null,
    phi: found.dispersion?.phi ?? null,
    tau_squared: found.dispersion?.tauSquared ?? null,
    ...(own === undefined
      ? {}
      : { own_position_95: own.positions[0] ?? null, own_position_998: own.positions[1] ?? null }),
    groups: shown.map((unit) => ({
      group: unit.name,
      eyes: unit.eyes.length,
      failed: unit.failedEyes.length,
      size: unit.size,
      value: unit.value,
      lower_95: unit.limits[0]?.lower ?? null,
      upper_95: unit.limits[0]?.upper ?? null,
      lower_998: unit.limits[1]?.lower ?? null,
      upper_998: unit.limits[1]?.upper ?? null,
      position_95: unit.positions[0] ?? null,
      position_998: unit.positions[1] ?? null,
      p: unit.p,
    })),
  };
}

/** How many people lie beyond the limits of a level, on one side; null where most stand together. */
export function numberAt(
  { shown, areOthersTogether }: FunnelParts,
  level: 0 | 1,
  side: "above" | "below",
): number | null {
  if (areOthersTogether) return null;
  return shown.filter(({ positions }) => positions[level] === side).length;
}
