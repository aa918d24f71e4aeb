import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { coxFirth } from "../../statistics/cox-firth.ts";
import { type CoxFit, coxRegression } from "../../statistics/cox-regression.ts";
import type { Interval } from "../../statistics/interval.ts";
import { proportionalHazardsTest } from "../../statistics/proportional-hazards-test.ts";
import { ratioOfCoefficient } from "../../statistics/regression-table.ts";
import type { Group } from "../answering/grouping.ts";
import { patientClusters } from "../answering/patient-clusters.ts";
import { clusteredEffect, enoughFailures, isThinColumn } from "../modelling/clustered-effects.ts";

/** Hazard ratios of groups against one of them. */
export interface HazardRatios {
  readonly ratios: readonly GroupRatio[];
  /** That all ratios are the same at all times; null where it cannot be tested. */
  readonly proportional: { readonly p: number; readonly transform: string } | null;
  /** What their limits make of two eyes of one patient. */
  readonly treatment: "independent" | "by patient" | "Firth's as independent";
}

export interface GroupRatio {
  readonly label: string;
  /** Null for the reference, and where no eye of the group is at risk when any fails. */
  readonly ratio: (Interval & { readonly estimate: number }) | null;
  readonly p: number | null;
}

/** Follow-up cut at the window, by eye of the record. */
export interface CutFollowUp {
  readonly record: EyeRecord;
  readonly time: readonly number[];
  readonly event: readonly number[];
  /** Stratum of each eye of the record. */
  readonly strata: readonly number[] | undefined;
}

/**
 * Cox's model of the groups, Efron's ties, errors clustered by patient where patients give two
 * eyes. A group in which none (or all) failed first has no finite ratio: there Firth's penalised
 * likelihood gives it with profile limits.
 */
export function hazardRatios(
  groups: readonly Group[],
  reference: number,
  followUp: CutFollowUp,
): HazardRatios {
  const eyes = groups.flatMap((group) => group.eyes);
  const others = groups.filter((_, position) => position !== reference);
  const input = modelOf(others, eyes, followUp);
  const cluster = patientClusters(followUp.record, eyes);
  const hasEvents = input.event.includes(1);
  const fit =
    others.length === 0 || !hasEvents
      ? null
      : coxRegression({ ...input, ...(cluster === undefined ? {} : { cluster }) });
  const ratios = groups.map((group) => ratioOf(group, fit, { others, input, cluster }));
  return {
    ratios,
    proportional: fit === null ? null : proportionality(fit),
    treatment: cluster === undefined ? "independent" : treatmentOf(ratios),
  };
}

/** Firth's limits cannot be clustered. */
function treatmentOf(ratios: readonly GroupRatio[]): HazardRatios["treatment"] {
  const penalised = ratios.filter(({ ratio }) => ratio?.method === firth);
  return penalised.length === 0 ? "by patient" : "Firth's as independent";
}

const firth = "Firth, profile likelihood";

/** Groups are covariates named by their position, so that no text of a file is a name. */
function modelOf(others: readonly Group[], eyes: readonly number[], followUp: CutFollowUp) {
  const { time, event, strata } = followUp;
  const members = others.map((group) => new Set(group.eyes));
  const covariates = members.map((set) => eyes.map((eye) => (set.has(eye) ? 1 : 0)));
  return {
    time: eyes.map((eye) => time[eye] ?? 0),
    event: eyes.map((eye) => event[eye] ?? 0),
    covariates,
    names: others.map((_, position) => nameAt(position)),
    ...(strata === undefined ? {} : { strata: eyes.map((eye) => strata[eye] ?? 0) }),
  };
}

function nameAt(position: number): string {
  return `x${position}`;
}

function ratioOf(
  group: Group,
  fit: CoxFit | null,
  {
    others,
    input,
    cluster,
  }: {
    others: readonly Group[];
    input: ReturnType<typeof modelOf>;
    cluster: Int32Array | undefined;
  },
): GroupRatio {
  const position = others.indexOf(group);
  const name = nameAt(position);
  if (position < 0 || fit === null || fit.aliased.includes(name)) {
    return { label: group.label, ratio: null, p: null };
  }
  if (fit.infinite.includes(name)) return penalised(group, name, { fit, input });
  const coefficient = fit.coefficients.find((each) => each.name === name);
  if (coefficient === undefined || !Number.isFinite(coefficient.standardError)) {
    return { label: group.label, ratio: null, p: null };
  }
  if (cluster === undefined) {
    const ratio = ratioOfCoefficient(coefficient, fit.level);
    return { label: group.label, ratio, p: coefficient.pValue };
  }
  const runsSmall =
    fit.events < enoughFailures || isThinColumn(input.covariates[position] ?? [], cluster);
  return { label: group.label, ...clusteredEffect(coefficient, { level: fit.level, runsSmall }) };
}

function penalised(
  group: Group,
  name: string,
  { fit, input }: { fit: CoxFit; input: ReturnType<typeof modelOf> },
): GroupRatio {
  const used = input.names.map((each) => !fit.aliased.includes(each));
  const { coefficients, level } = coxFirth({
    ...input,
    covariates: input.covariates.filter((_, c) => used[c]),
    names: input.names.filter((_, c) => used[c]),
    only: [name],
  });
  const found = coefficients.find((each) => each.name === name);
  if (found === undefined) return { label: group.label, ratio: null, p: null };
  return {
    label: group.label,
    ratio: {
      estimate: Math.exp(found.estimate),
      lower: Math.exp(found.lower),
      upper: Math.exp(found.upper),
      level,
      method: firth,
    },
    p: found.pValue,
  };
}

function proportionality(fit: CoxFit): HazardRatios["proportional"] {
  if (fit.infinite.length > 0 || fit.aliased.length === fit.coefficients.length) return null;
  const { global, transform } = proportionalHazardsTest(fit);
  return global.degreesOfFreedom === 0 ? null : { p: global.pValue, transform };
}
