import { pointsText, ratioText } from "../../charts/effect-intervals.ts";
import type { Sentence } from "../answer.ts";
import { type Effect, pointsRange, ratioRange } from "../answering/effect-cells.ts";
import { failureWords, rulesClause } from "../answering/failure-words.ts";
import { othersInTable, toldGroups } from "../answering/told-groups.ts";
import { counted, listed, percent, pValue } from "../answering/wording.ts";
import type { GroupRate } from "../failure-rate/rate-of-group.ts";
import type { StrataCompared } from "./across-strata.ts";
import type { TwoCompared } from "./compare-two.ts";
import {
  type DifferenceParts,
  leadsWithCurve,
  notKnownOf,
  onlyOne,
} from "./rate-difference-parts.ts";

/**
 * The difference for the minutes. Where the outcome of some eyes at the window is not known it
 * leads with the curves, then gives the eyes that are known; each interval and each p with its
 * name.
 */
export function differenceSentence(parts: DifferenceParts): Sentence {
  const { groups, grouping } = parts;
  const all = groups.reduce((sum, { eyes, notKnown }) => sum + eyes + notKnown, 0);
  if (all === 0) return ["No eyes to compare."];
  if (groups.length < 2) {
    const only = groups[0]?.label ?? "none";
    return [`There is nothing to compare: by ${grouping.label} there is only ${only}.`];
  }
  const one = onlyOne(parts);
  return [
    ...(one === undefined ? manyGroups(parts) : twoGroups(parts, one)),
    ...(parts.trend === undefined ? [] : trendClause(parts)),
    ...(parts.strata === undefined ? [] : strataClause(parts.strata)),
    ...rulesClause(parts.record),
  ];
}

function twoGroups(parts: DifferenceParts, one: TwoCompared): Sentence {
  const known = knownClause(parts, one);
  if (notKnownOf(parts) === 0) {
    return [`${opening(parts)}: `, ...known, ...verdict(one.difference)];
  }
  const opened = `Of the eyes whose outcome ${atWindow(parts)} is known, `;
  if (one.curve === null) {
    return [...allClause(parts), opened, ...known, ...verdict(one.difference)];
  }
  return [...curveClause(parts, one, one.curve), opened, ...known];
}

function opening({ record, window }: DifferenceParts): string {
  const { noun } = failureWords(record);
  const meant = noun === "failure" ? "" : ` (failure: ${noun})`;
  return `${window === undefined ? "To the end of follow-up" : `Within ${window.text}`}${meant}`;
}

function atWindow({ window }: DifferenceParts): string {
  return window === undefined ? "at the end of follow-up" : `at ${window.text}`;
}

/**
 * "scleral buckle 62 of 133 eyes failed (46.6%), vitrectomy 37 of 132 (28.0%)" and what follows.
 */
function knownClause(parts: DifferenceParts, one: TwoCompared): Sentence {
  const [first, second] = parts.groups;
  const counts = [first, second].flatMap((group, i) =>
    group === undefined ? [] : [...(i === 0 ? [] : [", "]), ...failedOf(group, `g${i}`, i === 0)],
  );
  if (one.difference === null) {
    const empty = [one.first, one.second].filter(({ eyes }) => eyes === 0);
    const which = listed(empty.map(({ label }) => label));
    return [
      ...counts,
      `; no outcome is known for ${which}, so the difference cannot be estimated.`,
    ];
  }
  return [...counts, `; ${differenceWords(one)}${ratioWords(one)}${testWords(one)}.`];
}

function failedOf(group: GroupRate, key: string, isFirst: boolean): Sentence {
  const { label, failed, eyes, rate } = group;
  if (eyes === 0) return [`${label} no eye`];
  const pick = failed === 0 ? {} : { pick: `${key}:failed` };
  const noun = isFirst ? (eyes === 1 ? " eye failed" : " eyes failed") : "";
  const of = `${failed === 0 ? "none" : failed} of ${eyes}${noun}`;
  return [
    `${label} `,
    { text: of, role: "failed", ...pick },
    rate === null ? "" : ` (${percent(rate)})`,
  ];
}

function differenceWords({ first, second, difference }: TwoCompared): string {
  if (difference === null) return "";
  return (
    `${first.label} less ${second.label} ${pointsText(difference.estimate)} percentage points ` +
    `(95% ${methodName(difference)} interval ${pointsRange(difference)})`
  );
}

/** "Katz" of "log risk ratio (Katz)": the method beside its interval. */
function methodName({ method }: { readonly method: string }): string {
  return /\(([^)]*)\)$/.exec(method)?.[1] ?? method;
}

function ratioWords({ riskRatio }: TwoCompared): string {
  if (riskRatio === null) return "";
  const interval = `95% ${methodName(riskRatio)} interval ${ratioRange(riskRatio)}`;
  return `; risk ratio ${ratioText(riskRatio.estimate)} (${interval})`;
}

function testWords({ test, exact }: TwoCompared): string {
  if (test === null) return "; there is nothing to test, since the outcome is the same in all";
  const midP = test.name === "Fisher's exact test" ? ` (mid-P: ${pValue(exact.midP)})` : "";
  return `; ${test.name}, ${pValue(test.p)}${midP}`;
}

/** All eyes, known or not, where the curves do not reach the window in both. */
function allClause(parts: DifferenceParts): Sentence {
  const counts = parts.groups.map(({ label, failed, eyes, notKnown }, i) => {
    const all = eyes + notKnown;
    const noun = i === 0 ? (all === 1 ? " eye failed" : " eyes failed") : "";
    return `${label} ${failed === 0 ? "none" : failed} of ${all}${noun}`;
  });
  const { window } = parts;
  const short = window === undefined ? "" : `; the curves do not reach ${window.text} in both`;
  return [`${opening(parts)}: ${counts.join(", ")}${short}. `];
}

function curveClause(
  parts: DifferenceParts,
  one: TwoCompared,
  curve: NonNullable<TwoCompared["curve"]>,
): Sentence {
  const p = curve.pValue;
  const ofGroup = ({ label, failed, eyes, notKnown, curve: own }: GroupRate): string =>
    `${label} ${percent(own?.estimate ?? null)} (${failed === 0 ? "none" : failed} failed of ` +
    `${counted(eyes + notKnown, "eye")})`;
  const test = p === null ? "" : `; test on the log-log scale, ${pValue(p)}`;
  return [
    `${opening(parts)}, by the curves: ${parts.groups.map(ofGroup).join(", ")}; ` +
      `${one.first.label} less ${one.second.label} ${pointsText(curve.estimate)} percentage points ` +
      `(95% ${methodName(curve)} interval ${pointsRange(curve)}${test}).`,
    ...verdict(curve),
    " ",
  ];
}

/** What the interval says, in words that claim no more than it does. */
function verdict(effect: Effect | null): Sentence {
  if (effect === null) return [];
  return effect.lower <= 0 && effect.upper >= 0
    ? [" The interval takes in zero: no difference is shown, which is no proof that there is none."]
    : [" The interval leaves out zero."];
}

/**
 * By the curves where eyes are not known, else by counts; then each group less the reference. Of
 * people, and of groups of a few eyes, only what all of them show together is said.
 */
function manyGroups(parts: DifferenceParts): Sentence {
  const { groups, grouping } = parts;
  const told = toldGroups(grouping, groups, sizeOf);
  if (told.length === 0) {
    const failed = groups.reduce((sum, group) => sum + group.failed, 0);
    const all = groups.reduce((sum, group) => sum + sizeOf(group), 0);
    const counts = `${failed === 0 ? "none" : failed} of ${counted(all, "eye")} failed`;
    return [`${opening(parts)} ${counts}; each stands in the table.`, ...overallClause(parts)];
  }
  const byCurve = leadsWithCurve(parts);
  const shares = told.map(({ label, failed, eyes, notKnown, rate, curve }) =>
    byCurve
      ? `${label} ${percent(curve?.estimate ?? null)} (${failed === 0 ? "none" : failed} failed of ${counted(eyes + notKnown, "eye")})`
      : `${label} ${failed === 0 ? "none" : failed} of ${eyes} (${percent(rate)})`,
  );
  const others = othersInTable(told.length, groups.length);
  return [
    byCurve
      ? `${opening(parts)}, by the curves: ${listed(shares)}${others}.`
      : `${opening(parts)}, of the eyes whose outcome is known, there failed ${listed(shares)}${others}.`,
    ...againstClause(parts, { told, byCurve }),
    ...overallClause(parts),
  ];
}

function sizeOf({ eyes, notKnown }: GroupRate): number {
  return eyes + notKnown;
}

function againstClause(
  { compared, reference }: DifferenceParts,
  { told, byCurve }: { told: readonly GroupRate[]; byCurve: boolean },
): Sentence {
  const effects = compared.flatMap(({ first, curve, difference }) => {
    const effect = byCurve ? curve : difference;
    return effect === null || !told.includes(first) ? [] : [{ label: first.label, effect }];
  });
  const [first] = effects;
  if (first === undefined) return [];
  const texts = effects.map(
    ({ label, effect }) => `${label} ${pointsText(effect.estimate)} (${pointsRange(effect)})`,
  );
  return [
    ` Less ${reference?.label}, in percentage points (95% ${methodName(first.effect)} intervals): ${listed(texts)}.`,
  ];
}

function overallClause({ overall, groups }: DifferenceParts): Sentence {
  if (overall === undefined) return [];
  return [
    ` All ${groups.length} groups at once, by the eyes whose outcome is known: ${overall.name}, ${pValue(overall.p)}.`,
  ];
}

function trendClause({ groups, trend }: DifferenceParts): Sentence {
  const order = `${groups[0]?.label} to ${groups.at(-1)?.label}`;
  if (trend === undefined) return [];
  if (trend.chiSquare === 0) return [` There is no trend from ${order}.`];
  const way = trend.z > 0 ? "rises" : "falls";
  return [
    ` From ${order} the share that failed ${way} in these eyes (Cochran–Armitage test for trend, ${pValue(trend.pValue)}).`,
  ];
}

function strataClause({ label, difference, oddsRatio, test, homogeneity, strata }: StrataCompared) {
  if (difference === null) {
    return [
      ` Within ${label} no stratum has known outcomes in both groups, so nothing can be said.`,
    ];
  }
  const odds =
    oddsRatio === null
      ? ""
      : `, common odds ratio ${ratioText(oddsRatio.estimate)} (${ratioRange(oddsRatio)})`;
  const same =
    homogeneity === null
      ? ""
      : `; that the odds ratio is the same in all strata, Breslow–Day test with Tarone's correction, ${pValue(homogeneity.taronePValue)}`;
  return [
    ` Within ${label} (${counted(strata.length, "stratum", "strata")}, known outcomes) the common difference is ` +
      `${pointsText(difference.estimate)} percentage points (95% ${methodName(difference)} interval ` +
      `${pointsRange(difference)})${odds}${test === null ? "" : `; ${test.name}, ${pValue(test.p)}`}${same}.`,
  ];
}
