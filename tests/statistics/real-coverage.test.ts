import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  bilateralShares,
  type ClusteredCell,
  clusteredCell,
  columns as clusteredColumns,
  settings as clusteredSettings,
} from "../references/real-coverage/clustered-cells.ts";
import {
  type CoverageCell,
  coverageCell,
  eyeCounts,
  failureRates,
  settings,
} from "../references/real-coverage/coverage-cells.ts";
import {
  columns,
  type FurtherCell,
  furtherCell,
  settings as furtherSettings,
} from "../references/real-coverage/further-cells.ts";
import { expectClose } from "./close-to.ts";
import { expectNear } from "./near.ts";

const file = new URL("../references/real-coverage/coverage.json", import.meta.url);
const stored = JSON.parse(readFileSync(file, "utf8")) as {
  settings: typeof settings;
  cells: CoverageCell[];
};

describe("the table of real coverage", () => {
  it("has every cell, made under the settings that the code has", () => {
    expect(stored.settings).toEqual(settings);
    const cells = failureRates.flatMap((rate) => eyeCounts.map((eyes) => [eyes, rate]));
    expect(stored.cells.map((cell) => [cell.eyes, cell.rate])).toEqual(cells);
  });

  it.each([
    [20, 0.13],
    [50, 0.05],
  ])("is what the code gives now, seed and all, for %i eyes at %d", (eyes, rate) => {
    const { kaplanMeierLogLog, logRankSize, ...exact } = stored.cells.find(
      (cell) => cell.eyes === eyes && cell.rate === rate,
    )!;
    const now = coverageCell(eyes, rate);
    for (const [name, share] of Object.entries(exact)) {
      expectClose(now[name as keyof CoverageCell], share, 1e-9);
    }
    // a power that differs in its last digit on another machine may move a few simulated days
    expectNear(now.kaplanMeierLogLog, kaplanMeierLogLog, 0.002);
    expectNear(now.logRankSize, logRankSize, 0.002);
  });

  it("shows the exact methods at or above their level, Fisher's test at or below its size", () => {
    for (const cell of stored.cells) {
      expect(cell.clopperPearson).toBeGreaterThanOrEqual(0.95);
      expect(cell.poissonExact).toBeGreaterThanOrEqual(0.95);
      expect(cell.fisherSize).toBeLessThanOrEqual(0.05);
    }
  });

  it("shows the others near their level where some 25 failures are expected", () => {
    for (const cell of stored.cells.filter(({ eyes, rate }) => eyes * rate >= 25)) {
      expectNear(
        [cell.wilson, cell.newcombeEqual, cell.newcombeDoubled],
        [0.95, 0.95, 0.95],
        0.015,
      );
      expectNear(cell.kaplanMeierLogLog, 0.95, 0.015);
      expectNear([cell.logRankSize, cell.chiSquareSize], [0.05, 0.05], 0.012);
    }
  });

  it("by hand: 20 eyes at 2%, where Wilson's interval misses only from 3 failures up", () => {
    // Wilson's lower limit of 2 of 20 is 0.0279, of 1 of 20 is 0.0089
    const none = 0.98 ** 20;
    const one = 20 * 0.02 * 0.98 ** 19;
    const cell = stored.cells.find(({ eyes, rate }) => eyes === 20 && rate === 0.02)!;
    expectClose(cell.wilson, none + one);
  });
});

const furtherFile = new URL("../references/real-coverage/further-coverage.json", import.meta.url);
const further = JSON.parse(readFileSync(furtherFile, "utf8")) as {
  settings: typeof furtherSettings;
  cells: FurtherCell[];
};

describe("the second table of real coverage", () => {
  it("has every cell and every column, made under the settings that the code has", () => {
    expect(further.settings).toEqual(furtherSettings);
    const cells = failureRates.flatMap((rate) => eyeCounts.map((eyes) => [eyes, rate]));
    expect(further.cells.map((cell) => [cell.eyes, cell.rate])).toEqual(cells);
    for (const cell of further.cells) {
      expect(Object.keys(cell).sort()).toEqual([...columns].sort());
    }
  });

  it("is what the code gives now, seed and all, for 20 eyes at 30%", () => {
    const stored = further.cells.find(({ eyes, rate }) => eyes === 20 && rate === 0.3)!;
    const now = furtherCell(20, 0.3);
    for (const name of columns) expectNear([now[name]!], [stored[name]!], 0.002);
  });

  // 0.021 is three errors of a share of 5% among 1000 series
  it("shows score limits, Firth's limits and every rank test near their level at 25 failures", () => {
    for (const cell of further.cells.filter(({ eyes, rate }) => eyes * rate >= 25)) {
      const intervals = [
        cell.midP,
        cell.scoreRatio,
        cell.incidence,
        cell.coxWald,
        cell.firthProfile,
      ];
      expectNear(intervals as number[], [0.95, 0.95, 0.95, 0.95, 0.95], 0.021);
      const tests = [cell.stratifiedLogRank, cell.gehan, cell.trend, cell.gray, cell.firthTest];
      expectNear(tests as number[], [0.05, 0.05, 0.05, 0.05, 0.05], 0.021);
    }
  });

  it("shows score limits of the c-statistic at their level wherever two events are expected", () => {
    const cells = further.cells.filter(({ eyes, rate }) => eyes * rate >= 2);
    for (const { rocScore, rocScoreApart } of cells) {
      expect(rocScore).toBeGreaterThan(0.93);
      expect(rocScoreApart).toBeGreaterThan(0.93);
    }
    // DeLong's do not: they fall short with few events, on the scale of the area and of its logit
    const few = further.cells.filter(({ eyes, rate }) => eyes * rate >= 2 && eyes * rate <= 10);
    for (const { deLong, deLongApart, rocScoreApart } of few) {
      expect(deLong).toBeLessThan(0.93);
      expect(deLongApart! - rocScoreApart!).toBeLessThan(-0.03);
    }
  });
});

const clusteredFile = new URL(
  "../references/real-coverage/clustered-coverage.json",
  import.meta.url,
);
const clustered = JSON.parse(readFileSync(clusteredFile, "utf8")) as {
  settings: typeof clusteredSettings;
  cells: ClusteredCell[];
};

describe("the third table of real coverage", () => {
  it("has every cell and every column, made under the settings that the code has", () => {
    expect(clustered.settings).toEqual(clusteredSettings);
    const cells = bilateralShares.flatMap((bilateral) =>
      failureRates.flatMap((rate) => eyeCounts.map((eyes) => [bilateral, eyes, rate])),
    );
    expect(clustered.cells.map(({ bilateral, eyes, rate }) => [bilateral, eyes, rate])).toEqual(
      cells,
    );
    for (const cell of clustered.cells) {
      expect(Object.keys(cell).sort()).toEqual([...clusteredColumns].sort());
    }
  });

  it("is what the code gives now, seed and all, for 20 eyes at 30% with both eyes of all", () => {
    const stored = clustered.cells.find(
      ({ bilateral, eyes, rate }) => bilateral === 1 && eyes === 20 && rate === 0.3,
    )!;
    const now = clusteredCell(stored);
    for (const name of clusteredColumns) expectNear([now[name]!], [stored[name]!], 0.002);
  });

  // 0.015 is three errors of a share of 5% among 2000 series
  it("shows clustered limits at their level where some 25 failures are expected", () => {
    for (const cell of clustered.cells.filter(({ eyes, rate }) => eyes * rate >= 25)) {
      const intervals = [
        cell.clusteredProportion,
        cell.clusteredKaplanMeier,
        cell.clusteredDifference,
      ];
      expectNear(intervals as number[], [0.95, 0.95, 0.95], 0.015);
    }
  });

  it("shows what it costs to forget patients: plain limits are too narrow where all give both", () => {
    const all = clustered.cells.filter(
      ({ bilateral, eyes, rate }) => bilateral === 1 && eyes * rate >= 25,
    );
    for (const { wilson, clusteredProportion, kaplanMeier, clusteredKaplanMeier } of all) {
      expect(wilson! - clusteredProportion!).toBeLessThan(-0.01);
      expect(kaplanMeier! - clusteredKaplanMeier!).toBeLessThan(-0.01);
    }
  });
});
