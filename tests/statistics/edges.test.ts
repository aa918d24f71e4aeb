/**
 * What each statistic of the room answers at its edges: nobody, one, none and all failed, all tied, day 0,
 * constant and collinear covariates, missing values. The answers are pinned as lines of a text file, to be
 * judged one by one when a line is added or changes; a NaN stands only where its reason is given here.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { countEdges } from "./edges/count-edges.ts";
import { type EdgeTable, outcomeOf, placesOfNaN } from "./edges/edge-table.ts";
import { modelEdges } from "./edges/model-edges.ts";
import { monitoringEdges } from "./edges/monitoring-edges.ts";
import { parts } from "./edges/parts.ts";
import { survivalEdges } from "./edges/survival-edges.ts";

const edges: EdgeTable = { ...countEdges, ...survivalEdges, ...modelEdges, ...monitoringEdges };
const all = Object.entries(edges).flatMap(([name, cases]) =>
  Object.entries(cases).map(([edge, run]) => ({ name, edge, run })),
);

const NO_ONE_LEFT = "Greenwood's formula is undefined once survival is 0";
const ALIASED = "a covariate that is constant or depends on those before it is named as aliased";
const NO_END = "a coefficient that moves without end has no robust error";
const ALL_ALIKE = "without two different predictions there is no slope";
const TOO_FEW = "DeLong's variance needs two events and two without";

/** By the start of a field's name, why a number may be missing. */
const reasonsForNaN: Readonly<Record<string, string>> = {
  "kaplanMeier.standardError": NO_ONE_LEFT,
  "reverseKaplanMeier.standardError": NO_ONE_LEFT,
  "clusteredKaplanMeier.standardError": NO_ONE_LEFT,
  "limitedByClusters.standardError": NO_ONE_LEFT,
  "survivalAt.standardError": NO_ONE_LEFT,
  "survivalDifferenceAt.first.standardError": NO_ONE_LEFT,
  "survivalTestAt.survival.0.standardError": NO_ONE_LEFT,
  "logisticRegression.coefficients": ALIASED,
  logisticProfile: ALIASED,
  "coxRegression.coefficients": ALIASED,
  "fineGray.coefficients": `${ALIASED}; ${NO_END}`,
  "calibration.slope": ALL_ALIKE,
  "rocArea.standardError": TOO_FEW,
  rocDifference: TOO_FEW,
};

describe("the edges of every statistic", () => {
  const file = new URL("edges/defined-edges.txt", import.meta.url);
  const defined = new Map(
    readFileSync(file, "utf8")
      .trimEnd()
      .split("\n")
      .map((line) => line.split(" | ") as [string, string, string])
      .map(([name, edge, outcome]) => [`${name} | ${edge}`, outcome]),
  );

  it("are all defined, and no more", () => {
    expect([...defined.keys()]).toEqual(all.map(({ name, edge }) => `${name} | ${edge}`));
  });

  it.each(all)("$name: $edge", ({ name, edge, run }) => {
    expect(outcomeOf(run)).toBe(defined.get(`${name} | ${edge}`));
  });
});

describe("a number that is missing", () => {
  it("has its reason", () => {
    const unexplained = all.flatMap(({ name, edge, run }) =>
      answeredNaN(run)
        .map((path) => `${name}.${path}`)
        .filter((field) => !Object.keys(reasonsForNaN).some((known) => field.startsWith(known)))
        .map((field) => `${field} of ${edge}`),
    );
    expect(unexplained).toEqual([]);
  });
});

describe("the list of edges", () => {
  it("has every statistic of the room; the rest are what they are made of", () => {
    const exported = filesOf(room).flatMap((name) => functionsOf(name));
    const missing = exported.filter((name) => !(name in edges) && !parts.includes(name));
    expect(missing).toEqual([]);
    expect(parts.filter((name) => !exported.includes(name) || name in edges)).toEqual([]);
  });
});

const room = new URL("../../src/statistics/", import.meta.url);

/** The files of the room itself; the compiled loops in `kernels` are parts. */
function filesOf(folder: URL): string[] {
  return readdirSync(folder).filter((name) => name.endsWith(".ts"));
}

function functionsOf(file: string): string[] {
  const text = readFileSync(new URL(file, room), "utf8");
  return Array.from(text.matchAll(/^export function (\w+)/gm), ([, name]) => name!);
}

/** Where an answer has NaN; nowhere in a refusal, which is pinned above. */
function answeredNaN(run: () => unknown): string[] {
  try {
    return placesOfNaN(run());
  } catch {
    return [];
  }
}
