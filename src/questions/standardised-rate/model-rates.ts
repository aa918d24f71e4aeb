import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Interval } from "../../statistics/interval.ts";
import type { Group } from "../answering/grouping.ts";
import type { ModelData } from "../modelling/model-data.ts";
import type { RatesOn, Resampling } from "./resampled-intervals.ts";

/** What is to be standardised, and how. */
export interface StandardiseInput {
  /** The terms, over eyes that are in one of the groups. */
  readonly data: ModelData;
  readonly groups: readonly Group[];
  readonly reference: number;
  readonly hasFailed: (eye: number) => boolean;
  /** Follow-up of each eye up to the window: the model is Cox's. Undefined: it is logistic. */
  readonly followUp: { readonly time: (eye: number) => number; readonly until: number } | undefined;
  /** Undefined: limits by the delta method, which only the logistic model has. */
  readonly resampling: Resampling | undefined;
  readonly given: GivenArguments;
}

/** What a model gives: the rates of all scenarios, their limits where it has them, and a refit. */
export interface ModelRates {
  readonly rates: readonly number[];
  readonly delta?: {
    readonly rates: readonly Interval[];
    /** By group, less the reference. */
    readonly differences: readonly (Interval & { readonly p: number })[];
  };
  readonly proportional: number | null;
  readonly ratesOn: RatesOn;
}
