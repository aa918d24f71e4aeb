import { type AttachmentCurves, attachmentWords, type CurveGroup } from "./attachment-curves.ts";
import { lastDay, survivalAt } from "./curve-geometry.ts";
import { percentText } from "./percent-text.ts";
import { plainText } from "./plain-text.ts";

/**
 * The curves in words: for each group its eyes, the share still attached on its last day with the
 * interval there, and how many eyes are at risk at the last of `atRiskTimes`.
 */
export function describeCurves(curves: AttachmentCurves): string {
  const groups = curves.groups.map((group, i) => describeGroup(group, i, curves));
  const { share } = curves.words ?? attachmentWords;
  const by = curves.splitBy === undefined ? "" : `, by ${plainText(curves.splitBy)}`;
  return [`Share of eyes ${share} by time since operation${by}.`, ...groups].join(" ");
}

function describeGroup(group: CurveGroup, index: number, curves: AttachmentCurves): string {
  const name = plainText(group.label);
  if (group.total === 0) return `${name}: no eyes.`;
  const day = lastDay(group, curves.until);
  const share = percentText(survivalAt(group, day), 1);
  const eyes = group.total === 1 ? "1 eye" : `${group.total} eyes`;
  return `${name}: ${eyes}, ${share} at day ${day}${intervalOn(group, day, curves.level)}${atRiskAtEnd(index, curves)}.`;
}

function intervalOn(group: CurveGroup, day: number, level = 0.95): string {
  const step = group.steps.findLast(({ time }) => time <= day);
  if (step === undefined || step.lower === null || step.upper === null) return "";
  const limits = `${percentText(step.lower, 1)} to ${percentText(step.upper, 1)}`;
  return ` (${Number((level * 100).toFixed(1))}% interval ${limits})`;
}

function atRiskAtEnd(index: number, { atRisk, atRiskTimes, until }: AttachmentCurves): string {
  const column = atRiskTimes.findLastIndex((time) => time <= until);
  const count = atRisk[index]?.[column];
  return count === undefined ? "" : `, ${count} at risk at day ${atRiskTimes[column]}`;
}
