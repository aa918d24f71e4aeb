import { pointsText } from "../../charts/effect-intervals.ts";
import type { Sentence } from "../answer.ts";
import { pointsRange } from "../answering/effect-cells.ts";
import { counted, pValue } from "../answering/wording.ts";
import { type DifferenceParts, leadsWithCurve, onlyOne } from "./rate-difference-parts.ts";

/** "Failed within 12 months, buckle less vitrectomy: −3.0 points (95% interval …; 466 eyes)." */
export function differenceBrief(parts: DifferenceParts): Sentence {
  const { groups, grouping, overall, window } = parts;
  if (groups.length < 2) return [];
  const byCurve = leadsWithCurve(parts);
  const eyes = groups.reduce((sum, one) => sum + one.eyes + (byCurve ? one.notKnown : 0), 0);
  const failed = window === undefined ? "Failed" : `Failed within ${window.text}`;
  const one = onlyOne(parts);
  const effect = byCurve ? one?.curve : one?.difference;
  if (one !== undefined && effect !== null && effect !== undefined) {
    return [
      `${failed}, ${one.first.label} less ${one.second.label}: ${pointsText(effect.estimate)} ` +
        `points (95% interval ${pointsRange(effect)}; ${counted(eyes, "eye")}).`,
    ];
  }
  if (overall === undefined) return [];
  const known = groups.reduce((sum, each) => sum + each.eyes, 0);
  return [
    `${groups.length} groups by ${grouping.label}, ${counted(known, "eye")}: ${overall.name}, ${pValue(overall.p)}.`,
  ];
}
