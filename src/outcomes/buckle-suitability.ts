import type { CellValue } from "../cases/table.ts";

/**
 * Features of an eye that speak for or against a scleral buckle. All of it is common practice
 * without a source: the features are named and counted, never weighted, and never say which
 * operation an eye should have.
 */
export interface BuckleFeature {
  readonly name: string;
  readonly speaks: "for" | "against";
  /** True, false, or null where the record does not say. */
  readonly present: (read: ReadField, young: number) => boolean | null;
}

export type ReadField = (field: string) => CellValue;

/** Younger than this, in years, unless the reader says otherwise: common practice, no source. */
export const usualYoung = 50;

export const buckleFeatures: readonly BuckleFeature[] = [
  {
    name: "no posterior vitreous detachment",
    speaks: "for",
    present: (read) => isOneOf(read("pvd"), ["absent"]),
  },
  {
    name: "young",
    speaks: "for",
    present: (read, young) => {
      const age = read("age");
      return typeof age === "number" ? age < young : null;
    },
  },
  { name: "phakic without significant cataract", speaks: "for", present: isClearPhakic },
  { name: "dialysis", speaks: "for", present: (read) => isOneOf(read("break_type"), ["dialysis"]) },
  { name: "round holes only", speaks: "for", present: hasRoundHolesOnly },
  { name: "gas ruled out", speaks: "for", present: (read) => truth(read("gas_unsuitable")) },
  {
    name: "extensive lattice",
    speaks: "for",
    present: (read) => isOneOf(read("lattice"), ["extensive"]),
  },
  {
    name: "media opacity",
    speaks: "against",
    present: (read) => either(truth(read("media_opacity")), truth(read("vitreous_haemorrhage"))),
  },
  { name: "posterior break", speaks: "against", present: (read) => truth(read("posterior_break")) },
  {
    name: "macular hole",
    speaks: "against",
    present: (read) => isOneOf(read("break_type"), ["macular hole"]),
  },
  {
    name: "no break found",
    speaks: "against",
    present: (read) => isOneOf(read("break_type"), ["none found"]),
  },
  {
    name: "giant tear",
    speaks: "against",
    present: (read) => isOneOf(read("break_type"), ["giant tear"]),
  },
  { name: "PVR grade C", speaks: "against", present: (read) => isOneOf(read("pvr_grade"), ["C"]) },
];

/** How the features of an eye lie, unweighted. */
export const suitabilityStrata = [
  "only features for",
  "features for and against",
  "only features against",
  "no feature either way",
] as const;
export type SuitabilityStratum = (typeof suitabilityStrata)[number];

export interface Suitability {
  readonly for: readonly string[];
  readonly against: readonly string[];
  /** Features on which the record is silent. */
  readonly silent: readonly string[];
  /** Null where a silent feature could move it: it is never guessed at. */
  readonly stratum: SuitabilityStratum | null;
}

/** The features of one eye. `features` are those that the file has columns for. */
export function suitabilityOf(
  read: ReadField,
  { young = usualYoung, features = buckleFeatures }: SuitabilityOptions = {},
): Suitability {
  const found = features.map((feature) => ({ feature, present: feature.present(read, young) }));
  const having = (speaks: "for" | "against", present: boolean | null): string[] =>
    found
      .filter((each) => each.feature.speaks === speaks && each.present === present)
      .map((each) => each.feature.name);
  const forIt = having("for", true);
  const against = having("against", true);
  const [silentFor, silentAgainst] = [having("for", null), having("against", null)];
  const isOpen =
    (forIt.length === 0 && silentFor.length > 0) ||
    (against.length === 0 && silentAgainst.length > 0);
  return {
    for: forIt,
    against,
    silent: [...silentFor, ...silentAgainst],
    stratum: isOpen ? null : stratumOf(forIt.length > 0, against.length > 0),
  };
}

export interface SuitabilityOptions {
  readonly young?: number;
  readonly features?: readonly BuckleFeature[];
}

/** The features for which the file has a column: the others are not silent, they are not asked. */
export function recordedFeatures(hasField: (field: string) => boolean): readonly BuckleFeature[] {
  return buckleFeatures.filter(({ present }) => {
    let isRecorded = false;
    present((field) => {
      isRecorded ||= hasField(field);
      return null;
    }, usualYoung);
    return isRecorded;
  });
}

function stratumOf(hasFor: boolean, hasAgainst: boolean): SuitabilityStratum {
  if (hasFor) return hasAgainst ? "features for and against" : "only features for";
  return hasAgainst ? "only features against" : "no feature either way";
}

function isClearPhakic(read: ReadField): boolean | null {
  const phakic = isOneOf(read("lens"), ["phakic"]);
  const opaque = truth(read("media_opacity"));
  if (phakic === false || opaque === true) return false;
  return phakic === null || opaque === null ? null : true;
}

function hasRoundHolesOnly(read: ReadField): boolean | null {
  const types = read("break_type");
  if (types === null) return null;
  const written = typeof types === "object" ? types : [String(types)];
  return written.length > 0 && written.every((type) => type === "round hole");
}

function isOneOf(value: CellValue, codes: readonly string[]): boolean | null {
  if (value === null) return null;
  const written = typeof value === "object" ? value : [String(value)];
  return written.some((code) => codes.includes(code));
}

function truth(value: CellValue): boolean | null {
  return typeof value === "boolean" ? value : null;
}

function either(one: boolean | null, other: boolean | null): boolean | null {
  if (one === true || other === true) return true;
  return one === null || other === null ? null : false;
}
