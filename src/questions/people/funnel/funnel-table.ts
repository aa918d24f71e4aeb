import { ratioText } from "../../../charts/effect-intervals.ts";
import type { FunnelLimits } from "../../../statistics/funnel-limits.ts";
import type { AnswerCell, AnswerColumn, AnswerTable } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { pCell } from "../../answering/effect-cells.ts";
import { count, percent } from "../../answering/wording.ts";
import { chanceToNotice, doubling } from "../enough-line.ts";
import type { FunnelParts } from "./funnel-parts.ts";
import type { ShownUnit } from "./shown-units.ts";

/** One row a person, in an order that gives nobody away; only eyes that may be opened open. */
export function funnelTable(parts: FunnelParts, picks: PickBook): AnswerTable {
  const isShare = parts.design.scale === "share";
  const columns: AnswerColumn[] = [
    { label: parts.label, kind: "text" },
    { label: isShare ? "outcome known" : "with a risk", kind: "number" },
    { label: "failed", kind: "number" },
    ...(isShare ? [] : [{ label: "expected", kind: "number" as const }]),
    { label: isShare ? "failed of known" : "observed / expected", kind: "number" },
    { label: "95% limits", kind: "interval" },
    { label: "99.8% limits", kind: "interval" },
    { label: "lies", kind: "text" },
    { label: "p (exact)", kind: "number" },
    { label: "chance to notice a doubled rate", kind: "number" },
    { label: "not known", kind: "number" },
  ];
  return {
    columns,
    rows: parts.shown.map((unit, position) => unitRow(unit, { position, parts, picks })),
  };
}

function unitRow(
  unit: ShownUnit,
  at: { readonly position: number; readonly parts: FunnelParts; readonly picks: PickBook },
): AnswerCell[] {
  const { design } = at.parts;
  const isShare = design.scale === "share";
  const counts = (what: string, eyes: readonly number[]): AnswerCell =>
    unit.isOpen
      ? at.picks.cell(`u${at.position}:${what}`, `${unit.name}, ${what}`, eyes)
      : { text: count(eyes.length), value: eyes.length };
  const text = isShare ? percent : ratioText;
  const power = chanceToNotice(unit.eyes.length, doubling(meanRisk(unit, design.target, isShare)));
  return [
    { text: unit.name, value: unit.name },
    counts("counted", unit.eyes),
    counts("failed", unit.failedEyes),
    ...(isShare ? [] : [{ text: unit.size.toFixed(1), value: unit.size }]),
    { text: text(unit.value), value: unit.value },
    ...unit.limits.map((limits) => limitsCell(limits, text)),
    liesCell(unit),
    pCell(unit.p),
    power === null ? { text: "–", value: null } : { text: percent(power), value: power },
    counts("not known", unit.judged.unknown),
  ];
}

function meanRisk({ size, eyes }: ShownUnit, target: number, isShare: boolean): number {
  return isShare ? target : size / eyes.length;
}

/** A limit that nothing can lie beyond is shown as none. */
function limitsCell(limits: FunnelLimits, text: (value: number) => string): AnswerCell {
  const lower = limits.hasLower ? text(limits.lower) : "none";
  const upper = limits.hasUpper ? text(limits.upper) : "none";
  return {
    text: `${lower}\u00a0–\u00a0${upper}`,
    value: null,
    limits: { lower: limits.lower, upper: limits.upper },
  };
}

function liesCell({ positions }: ShownUnit): AnswerCell {
  const [inner, outer] = positions;
  const text =
    outer !== "inside" ? `${outer} 99.8%` : inner !== "inside" ? `${inner} 95%` : "inside";
  return { text, value: text };
}
