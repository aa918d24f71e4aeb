import { clusteredModelTable } from "./clustered-model-cells.ts";
import { countedTable } from "./counted-cells.ts";
import type { CoverageTable } from "./coverage-table.ts";
import { curveTable } from "./curve-cells.ts";
import { modelTable } from "./model-cells.ts";
import { resampledTable } from "./resampled-cells.ts";
import { unitTable } from "./unit-cells.ts";

/** The fourth to the ninth table of real coverage, which one program writes. */
export const coverageTables: readonly CoverageTable[] = [
  countedTable,
  curveTable,
  modelTable,
  unitTable,
  clusteredModelTable,
  resampledTable,
];
