import type { SectionedRates } from "../../charts/sectioned-rates.ts";
import { buckleFeatures } from "../../outcomes/buckle-suitability.ts";
import { eyeCount } from "../../outcomes/eye-record.ts";
import type { AnswerCell, AnswerTable, FigureRecord } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { estimateCell, noEstimate } from "../answering/estimate-cell.ts";
import { rateHeading } from "../answering/rate-words.ts";
import { rateFigures } from "../failure-rate/failure-rate-parts.ts";
import { type GroupRate, headlineOf, isByCurve } from "../failure-rate/rate-of-group.ts";
import type { StratumRates, SuitabilityParts } from "./suitability-parts.ts";

/** Rows: the groups within each stratum, then the whole stratum. */
export function suitabilityTable(parts: SuitabilityParts, picks: PickBook): AnswerTable {
  const { grouping, strata, record } = parts;
  return {
    columns: [
      { label: "features of the eye", kind: "text" },
      { label: grouping.label ?? "", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "failed", kind: "number" },
      { label: rateHeading(record), kind: "estimate" },
      { label: "not known", kind: "number" },
    ],
    rows: strata.flatMap((stratum, place) =>
      rowsOf(stratum).map((rate, position) =>
        tableRow(stratum, rate, { key: `s${place}r${position}`, picks }),
      ),
    ),
  };
}

function rowsOf({ groups, all }: StratumRates): readonly GroupRate[] {
  return [...groups, all];
}

function tableRow(
  { label }: StratumRates,
  rate: GroupRate,
  { key, picks }: { readonly key: string; readonly picks: PickBook },
): AnswerCell[] {
  const openable = (what: string, eyes: readonly number[]): AnswerCell =>
    picks.cell(`${key}:${what}`, `${label}, ${rate.label}, ${what}`, eyes);
  const headline = headlineOf(rate);
  return [
    { text: label, value: label },
    { text: rate.label, value: rate.label },
    openable("all", [...rate.knownEyes, ...rate.unknownEyes]),
    openable("failed", rate.failedEyes),
    headline === null ? noEstimate : estimateCell(headline.estimate, headline),
    openable("not known", rate.unknownEyes),
  ];
}

/** The rows of the table lead to the same eyes, under the same keys. */
export function drawnSuitability({ strata }: SuitabilityParts): SectionedRates {
  const isOfCurve = strata.some((stratum) => rowsOf(stratum).some(isByCurve));
  return {
    counted: "failed",
    ...(isOfCurve ? { how: "by the curve" } : {}),
    tone: "failed",
    sections: strata.map((stratum, place) => ({
      label: stratum.label,
      rows: rowsOf(stratum).map((rate, position) => {
        const headline = headlineOf(rate);
        return {
          label: rate.label,
          events: rate.failed,
          total: rate.eyes + rate.notKnown,
          rate: headline?.estimate ?? null,
          lower: headline?.lower ?? null,
          upper: headline?.upper ?? null,
          ...(rate.failed === 0 ? {} : { pick: `s${place}r${position}:failed` }),
        };
      }),
    })),
  };
}

/** The numbers by name, and how often each feature is recorded as present. */
export function suitabilityFigures(parts: SuitabilityParts): FigureRecord {
  const { strata, buckles, otherOnlyFor, suitability, record } = parts;
  const onlyFor = strata.find(({ stratum }) => stratum === "only features for")?.all;
  const size = onlyFor === undefined ? 0 : onlyFor.eyes + onlyFor.notKnown;
  return {
    headline: `${size} of ${eyeCount(record)}`,
    buckle_only_for: buckles === null ? null : rateFigures(buckles.onlyFor),
    buckle_with_against: buckles === null ? null : rateFigures(buckles.against),
    other_only_for: rateFigures(otherOnlyFor),
    strata: strata.map(({ label, groups, all }) => ({
      features: label,
      ...rateFigures(all),
      groups: groups.map((rate) => ({ group: rate.label, ...rateFigures(rate) })),
    })),
    features: buckleFeatures.map(({ name, speaks }) => ({
      feature: name,
      speaks,
      eyes: suitability.filter((each) => each[speaks].includes(name)).length,
    })),
  };
}
