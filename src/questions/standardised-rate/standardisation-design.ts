import type { Group } from "../answering/grouping.ts";
import type { ModelData } from "../modelling/model-data.ts";

/** The covariates of the model and those of each scenario. */
export interface Design {
  readonly covariates: readonly (readonly number[])[];
  readonly names: readonly string[];
  /** By group: the covariates as if all eyes were in it. */
  readonly scenarios: readonly (readonly (readonly number[])[])[];
  readonly levels: ModelData["columns"];
  /** By group: its eyes among those of the model. */
  readonly members: readonly ReadonlySet<number>[];
}

/**
 * The slopes of a model fitted to a resample, for its mean risks; null where a group is not in the
 * resample. A level that is not in it has slope 0, since no row of it has the level; a level in
 * which none failed has a slope that runs off, and its risks are near enough to the 0 that they run
 * to.
 */
export function resampledSlopes(
  estimates: readonly number[],
  { scenarios }: Design,
): readonly number[] | null {
  const groupColumns = estimates.slice(0, scenarios.length - 1);
  if (groupColumns.some(Number.isNaN)) return null;
  return estimates.map((estimate) => (Number.isNaN(estimate) ? 0 : estimate));
}

/** Groups but the reference as columns, then the terms; a scenario a group. */
export function standardisationDesign(
  data: ModelData,
  groups: readonly Group[],
  reference: number,
): Design {
  const { eyes } = data;
  const inModel = new Set(eyes);
  const members = groups.map((group) => new Set(group.eyes.filter((eye) => inModel.has(eye))));
  const others = groups.map((_, position) => position).filter((each) => each !== reference);
  const terms = data.columns.map(({ values }) => values);
  const membership = (position: number): number[] =>
    eyes.map((eye) => (members[position]?.has(eye) ? 1 : 0));
  const levels = others.map((position) => ({
    text: groups[position]?.label ?? "",
    values: membership(position),
    eyes: [...(members[position] ?? [])],
  }));
  const constant = (value: number): number[] => new Array<number>(eyes.length).fill(value);
  return {
    covariates: [...levels.map(({ values }) => values), ...terms],
    names: [...others.map((position) => `g${position}`), ...data.names],
    scenarios: groups.map((_, chosen) => [
      ...others.map((position) => constant(position === chosen ? 1 : 0)),
      ...terms,
    ]),
    levels: [...levels, ...data.columns],
    members,
  };
}
