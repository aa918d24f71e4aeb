/**
 * Pointwise confidence limits of a survival probability from its Greenwood standard error.
 *
 * With S the estimate and s = SE(S) / S (the standard error of ln S), and z the normal deviate:
 *   plain     S -+ z s S
 *   log       exp(ln S -+ z s)
 *   log-log   S^exp(+-z s / ln S)                        (Kalbfleisch and Prentice 1980)
 *   logit     expit(logit S -+ z s / (1 - S))
 *   arcsine   sin^2(arcsin sqrt S -+ z s sqrt(S / (1 - S)) / 2)     (Thomas and Grunkemeier 1975)
 * Limits stay within [0, 1].
 *
 * Greenwood's formula has no width before the first event and is undefined once nobody is left,
 * so there, whatever the kind: at S = 1 the limits are the exact binomial ones for none failed
 * of those still at risk, lower = ((1 - level) / 2)^(1 / atRisk), upper = 1 (Clopper and Pearson
 * 1934); at S = 0 the lower limit is 0, and the upper one is that of the step before, or at a first
 * step 1 - ((1 - level) / 2)^(1 / atRisk): survival cannot have risen.
 *
 * With ten failures or fewer by the day, 95% limits on the plain scale and on the log scale hold
 * the true survival in as few as 88% of samples, those on the log-log and the logit scale in 93% or
 * more (counted in the tables of real coverage among the tests): so log-log is what is given unless
 * another is asked for.
 */
import { normalDeviate } from "./distributions.ts";

export type SurvivalLimits = "log-log" | "log" | "plain" | "logit" | "arcsine";

/** A step of the curve: `relativeError` is SE(S) / S. */
export interface SurvivalStep {
  readonly survival: number;
  readonly relativeError: number;
  readonly atRisk: number;
}

type Transform = (survival: number, width: number) => readonly [lower: number, upper: number];

const transforms: Readonly<Record<SurvivalLimits, Transform>> = {
  plain: (s, width) => [s - width * s, s + width * s],
  log: (s, width) => [s * Math.exp(-width), s * Math.exp(width)],
  "log-log": (s, width) => {
    const logSurvival = Math.log(s);
    const power = Math.exp(-width / logSurvival);
    return [Math.exp(logSurvival * power), Math.exp(logSurvival / power)];
  },
  logit: (s, width) => {
    const odds = s / (1 - s);
    const factor = Math.exp(width / (1 - s));
    return [odds / (odds + factor), (odds * factor) / (1 + odds * factor)];
  },
  arcsine: (s, width) => {
    const angle = Math.asin(Math.sqrt(s));
    const half = (width / 2) * Math.sqrt(s / (1 - s));
    return [
      Math.sin(Math.max(0, angle - half)) ** 2,
      Math.sin(Math.min(Math.PI / 2, angle + half)) ** 2,
    ];
  },
};

/** An estimate this near to 1 is 1: an incidence is a sum, which carries rounding. */
const ONE = 1 - 1e-14;

/** The limits of consecutive steps, to be called in the order of time. */
export function survivalLimits(
  kind: SurvivalLimits,
  level: number,
): (step: SurvivalStep) => readonly [lower: number, upper: number] {
  const transform = transforms[kind];
  if (transform === undefined) {
    throw new RangeError(`limits is ${kind}; expected ${Object.keys(transforms).join(", ")}`);
  }
  const deviate = normalDeviate(level);
  const tail = (1 - level) / 2;
  // in a typed array a number is kept as it is, in a variable of a closure boxed anew at every step
  const upperBefore = Float64Array.of(Number.NaN);
  return ({ survival, relativeError, atRisk }) => {
    if (survival > ONE) return [tail ** (1 / atRisk), 1];
    if (survival === 0) {
      const before = upperBefore[0]!;
      return [0, Number.isNaN(before) ? 1 - tail ** (1 / atRisk) : before];
    }
    const [lower, upper] = transform(survival, deviate * relativeError);
    upperBefore[0] = Math.min(1, upper);
    return [Math.max(0, lower), upperBefore[0]];
  };
}
