import type { AggregatesFile } from "../../../src/aggregates/aggregates-file.ts";
import { tableOf } from "../../../src/cases/table.ts";
import { evaluate } from "../../../src/formula/evaluate.ts";
import { parse } from "../../../src/formula/parse.ts";
import type { Value } from "../../../src/formula/value.ts";
import type { EyeRecord } from "../../../src/outcomes/eye-record.ts";
import { formatProblem } from "../../../src/problem/format-problem.ts";
import { type Answered, sentenceText } from "../../../src/questions/answer.ts";
import { eyesValue } from "../../../src/questions/index-eyes.ts";
import { departmentsValue } from "../../../src/questions/pooling/departments.ts";
import { poolingVocabulary, vocabulary } from "../../../src/questions/vocabulary.ts";
import { aggregatesOfRecord } from "../../../src/report/pooling/aggregates-of-record.ts";
import { seededRandom } from "../../../src/statistics/seeded-random.ts";

/** One invented eye. */
export interface InventedEye {
  readonly technique: string;
  readonly time: number;
  readonly failed: boolean;
  readonly cause: string | null;
  readonly died: boolean;
  readonly patient: string;
}

export const days = 365;
const techniques = ["scleral buckle", "vitrectomy"];
const causes = ["new break", "PVR"];

/**
 * Invented eyes of one fictional department. `grid`: the days on which anything happens, so that
 * with few of them every day holds many eyes.
 */
export function inventedEyes(
  seed: number,
  {
    eyes,
    grid,
    risk,
  }: { readonly eyes: number; readonly grid: readonly number[]; readonly risk: number },
): InventedEye[] {
  const { uniform: random, below } = seededRandom(seed);
  const pick = <T>(of: readonly T[]): T => of[below(of.length)] as T;
  return Array.from({ length: eyes }, (_, eye) => {
    const technique = pick(techniques);
    const failed = random() < (technique === "vitrectomy" ? risk : 0.7 * risk);
    const lost = !failed && random() < 0.25;
    const died = lost && random() < 0.3;
    return {
      technique,
      ...{ failed, died },
      time: failed || lost ? pick(grid) : days,
      cause: failed ? pick(causes) : null,
      patient: `d${seed} p${eye}`,
    };
  });
}

/** Eyes as `index_eyes` would follow them for a year. */
export function recordOf(eyes: readonly InventedEye[]): EyeRecord {
  const text = (name: string, values: readonly (string | null)[]) => ({
    ...{ name, label: name, kind: "code" as const, values },
  });
  return {
    table: tableOf([
      text(
        "technique",
        eyes.map(({ technique }) => technique),
      ),
    ]),
    time: Float64Array.from(eyes, ({ time }) => time),
    event: Uint8Array.from(eyes, ({ failed }) => Number(failed)),
    undecided: new Uint8Array(eyes.length),
    state: eyes.map(({ failed, died }) => (failed ? "failed" : died ? "died" : "attached")),
    causes: eyes.map(({ cause }) => (cause === null ? [] : [cause])),
    patient: eyes.map(({ patient }) => patient),
    lines: eyes.map((_, at) => [at + 2]),
    timeUnit: "days",
    rules: {
      ...{ failure: "redetachment", oil: "followed from removal", undecided: "bounds" },
      window: { length: days, text: "12 months" },
    },
    window: { length: days, text: "12 months" },
    leftOut: [],
    flow: {
      rowsRead: eyes.length,
      rowsStopped: [],
      rows: eyes.length,
      primaryRows: eyes.length,
      laterRows: 0,
    },
  };
}

export const definition: AggregatesFile["definition"] = {
  ...{ failure: "redetachment", oil: "followed from removal", undecided: "bounds" },
  ...{ window: "12 months", days, eyes: "all" as const },
};

export function aggregatesOf(
  unit: string,
  eyes: readonly InventedEye[],
  threshold = 5,
): AggregatesFile {
  return aggregatesOfRecord(recordOf(eyes), definition, {
    ...{ version: "0", unit, threshold, groupings: [["technique"]] },
    before: { counted: [], open: new Set() },
  });
}

/** An answer from aggregates, or from the eyes themselves, which stand under `eyes`. */
export function asked(
  working: string,
  from: { readonly files?: readonly AggregatesFile[]; readonly eyes?: readonly InventedEye[] },
) {
  const cells = new Map<string, Value>();
  if (from.eyes !== undefined) cells.set("eyes", eyesValue(recordOf(from.eyes)));
  if (from.files !== undefined) {
    const made = departmentsValue(from.files);
    if ("problems" in made) throw new Error(made.problems.map(formatProblem).join("\n"));
    cells.set("departments", made.value);
  }
  const { tree } = parse(working);
  if (tree === null) throw new Error(`${working} cannot be read`);
  const outcome = evaluate(tree, {
    vocabulary: from.files === undefined ? vocabulary : poolingVocabulary,
    cell: (name) => cells.get(name),
  });
  if (!outcome.ok) throw new Error(outcome.problems.map(formatProblem).join("\n"));
  if (outcome.value.kind !== "thing") throw new Error("no answer");
  const { answer } = outcome.value.content as Answered;
  return {
    answer,
    sentence: sentenceText(answer.sentence),
    // biome-ignore lint/suspicious/noExplicitAny: tests read figures by name
    figures: answer.figures as any,
    cautions: answer.cautions.map(({ code }) => code),
  };
}
