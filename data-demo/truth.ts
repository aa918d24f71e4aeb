/**
 * What is true of the invented unit, and what an analysis of its file should therefore find.
 *
 * Every number is declared here and nowhere else. "Common practice, no source" marks a direction
 * that any vitreoretinal surgeon would expect and a size that was chosen.
 */

/**
 * Seed and size of the committed file. The seed is one of some 20,000 tried: its draw lies near what is
 * declared here, so that a small file still shows it, and no surgeon but the one who drifts signals.
 */
export const demo = { seed: 21131, eyes: 520 } as const;

/** ISO days. The file was drawn from the theatre log on the extract day. */
export const period = { first: "2023-01-01", last: "2025-12-31", extract: "2026-03-31" } as const;

/** Share of patients with a detachment in both eyes within the period. */
export const bothEyesShare = 30 / 490;

/** The three ways to fail, against staying attached: a multinomial logit. */
export type FailureKind = "PVR" | "other" | "never attached";

/** Log odds, against staying attached, of an eye with no risk factor under an average surgeon. */
export const baselineLogOdds: Readonly<Record<FailureKind, number>> = {
  PVR: -4.19,
  other: -3.51,
  "never attached": -5.2,
};

/**
 * Odds ratios of an eye's own features. `tear` is a horseshoe or giant tear against round holes,
 * a dialysis or none found; `twoQuadrants` is more than one quadrant detached, `threeQuadrants`
 * more than two, on top of it.
 *
 * - tear and twoQuadrants: the direction of Steel 2026, buckle failures (3.18 and 2.03). The size
 *   of the second is kept; that of the first is lower by choice, since here it holds for every
 *   technique.
 * - pvrB: Steel 2026 (B or C 2.07). pvrC and aphakia: Kon 2000, Br J Ophthalmol 84:506 (PVR
 *   already there 3.01, aphakia 2.72).
 * - threeQuadrants, giantTear, choroidals and uveitis: the direction of Retina 1994;14:417, sizes
 *   chosen.
 * - haemorrhage and smoking: common practice, no source.
 * - Failures that are not PVR, and eyes that never attach: every size but those of tear and
 *   twoQuadrants was chosen, so that failures of all causes rise step by step with the number of
 *   factors (`targets.failureByRisk`).
 */
export const featureOddsRatios = {
  PVR: {
    tear: 1.45,
    twoQuadrants: 2.03,
    threeQuadrants: 1.5,
    pvrB: 2.07,
    pvrC: 3.01,
    haemorrhage: 2.4,
    currentSmoker: 2.2,
    aphakia: 2.72,
    giantTear: 2,
    choroidals: 2,
    uveitis: 2,
  },
  other: {
    tear: 1.45,
    twoQuadrants: 2.03,
    threeQuadrants: 1.5,
    pvrB: 1.5,
    pvrC: 2,
    haemorrhage: 1.8,
    currentSmoker: 1,
    aphakia: 1.5,
    giantTear: 1.8,
    choroidals: 1.5,
    uveitis: 1,
  },
  "never attached": {
    tear: 1,
    twoQuadrants: 1.5,
    threeQuadrants: 1,
    pvrB: 1.5,
    pvrC: 4,
    haemorrhage: 1,
    currentSmoker: 1,
    aphakia: 1,
    giantTear: 1,
    choroidals: 1,
    uveitis: 1,
  },
} as const satisfies Readonly<Record<FailureKind, Readonly<Record<string, number>>>>;

/**
 * Odds ratios of the primary technique, given the eye. Buckle and vitrectomy do the same for the
 * same eye: whatever their raw rates say is the choice of eyes. That pneumatic retinopexy fails
 * more often has the direction of Hillier 2019, Ophthalmology 126:531 (80.8% against 93.2%
 * attached); that a buckle added to a vitrectomy helps, of Ryan 2020 (90.2% against 84.2%). Both
 * sizes were chosen.
 */
export const techniqueOddsRatios = {
  "scleral buckle": 1,
  vitrectomy: 1,
  "vitrectomy with buckle": 0.7,
  "pneumatic retinopexy": 2.2,
  "laser or cryo alone": 1,
} as const;

export type PrimaryTechnique = keyof typeof techniqueOddsRatios;

/**
 * What the file should show. The buckle's is 69/530, Retina 2021;41(11). Detached again after oil
 * was removed: 24/161, BMC Ophthalmol 2024, s12886-024-03618-z, and 20/115, Falkner 2001, Br J
 * Ophthalmol, together. The rest was chosen. Risk is the number of factors for failure by scar tissue that
 * are recorded (none, one, more), and its failures are those by six months.
 */
export const targets = {
  buckleFailure: 0.13,
  overallFailure: [0.12, 0.16],
  failureByRisk: { low: [0.08, 0.115], middle: [0.13, 0.19], high: [0.2, 0.31] },
  failureAfterOilRemoval: 44 / 276,
  lostBeforeTwelveMonths: 0.25,
} as const;

/** Cumulative share of failures found by each day; straight between the days. */
export type Timing = readonly (readonly [days: number, share: number])[];

/**
 * Failed vitrectomies, n = 133, Graefe's 2014;252:1711: found by 2, 3, 4 and 6 months. That all
 * are found within two years is chosen, as is the shape within the first two months.
 */
export const failedVitrectomies: Timing = [
  [61, 0.729],
  [91, 0.85],
  [122, 0.895],
  [183, 0.977],
  [730, 1],
];

/** Scarring takes 4 to 12 weeks (common practice, no source). */
export const pvrTiming: Timing = [
  [14, 0],
  [28, 0.08],
  [42, 0.36],
  [61, 0.68],
  [91, 0.89],
  [122, 0.93],
  [183, 0.985],
  [730, 1],
];

/** Share of PVR among the failures of vitrectomies that flattened: it balances the two timings. */
export const pvrShare = 0.42;

/** How the other failures spread within their first two months: breaks reopen as the gas goes. */
export const otherEarlyTiming: Timing = [
  [2, 0],
  [7, 0.12],
  [14, 0.35],
  [28, 0.68],
  [42, 0.86],
  [61, 1],
];

/** Under silicone oil a share of the failures shows before the oil is out (chosen). */
export const oil = {
  failsUnderOilShare: 0.4,
  removedShare: 0.85,
  removalDays: [95, 185],
} as const;

export interface Operator {
  readonly code: string;
  readonly grade: "consultant" | "fellow" | "trainee";
  /** Weight in the share-out of primary repairs, and of those that are complex. */
  readonly share: number;
  readonly complexShare: number;
}

export const operators: readonly Operator[] = [
  { code: "A", grade: "consultant", share: 18, complexShare: 30 },
  { code: "B", grade: "consultant", share: 16, complexShare: 22 },
  { code: "C", grade: "consultant", share: 13, complexShare: 16 },
  { code: "D", grade: "fellow", share: 9, complexShare: 7 },
  { code: "E", grade: "consultant", share: 18, complexShare: 18 },
  { code: "F", grade: "fellow", share: 8, complexShare: 5 },
  { code: "T1", grade: "trainee", share: 6, complexShare: 1 },
  { code: "T2", grade: "trainee", share: 8, complexShare: 1 },
  { code: "T3", grade: "trainee", share: 4, complexShare: 0.5 },
];

/** Steady odds ratios against an average surgeon; the rest are 1. */
export const operatorOddsRatios: ReadonlyMap<string, number> = new Map([
  ["F", 1.15],
  ["T1", 1.2],
  ["T3", 1.3],
]);

/** Surgeon E does as well as anyone until this day, and worse from it on. */
export const drift = { surgeon: "E", from: "2025-06-01", oddsRatio: 3 } as const;

/**
 * Trainee T2 begins at this odds ratio, and its logarithm halves with every so many repairs (in
 * a file of the demo's size; in proportion in a larger one).
 */
export const learning = { trainee: "T2", firstOddsRatio: 4.5, repairsToHalve: 12 } as const;

/** Chance that a later operation fails: plain, and after a failure from PVR (chosen). */
export const reoperationFailure = { plain: 0.21, afterPvr: 0.36 } as const;

/** Chance of not coming back after each planned visit of a primary repair (chosen). */
export const lostAfterVisit = { week: 0.015, month: 0.04, threeMonths: 0.09, sixMonths: 0.115 };

/** Share of visits that fall before the day they are due; clinics run late (chosen). */
export const earlyVisitShare = 0.08;

/** Share of deaths, each ending follow-up without a failure (chosen). */
export const deathShare = 0.016;
