import { cellsOf } from "./cells.ts";
import { headingLine, rowLine } from "./csv.ts";
import { type Fault, withFaults } from "./faults.ts";
import { leaveGaps } from "./gaps.ts";
import { drawNote } from "./notes.ts";
import { drawPatients } from "./patient.ts";
import { drawCourses, type EyeCourse, type EyeTruth } from "./primary-repairs.ts";
import { type Random, seededRandom } from "./random.ts";
import type { RecordedRow } from "./recorded-row.ts";
import { demo } from "./truth.ts";

export interface TruthRow extends EyeTruth {
  /** The case of the eye's primary repair. */
  readonly case: string;
}

export interface Demo {
  /** The file, each line ended by a line feed. */
  readonly csv: string;
  readonly truth: readonly TruthRow[];
  readonly faults: readonly Fault[];
}

export interface DemoOptions {
  /** How many eyes have a primary repair; the demo's own number unless said. */
  readonly eyes?: number;
  /** Whether the deliberate faults are put in; yes unless said. */
  readonly faults?: boolean;
}

/** The file of the invented unit: the same seed and options always give the same file. */
export function generateDemo(seed: number, options: DemoOptions = {}): Demo {
  const random = seededRandom(seed);
  const courses = drawCourses(random, drawPatients(random, options.eyes ?? demo.eyes));
  const { rows, truth } = recordRows(random, courses);
  const { lines, faults } =
    options.faults === false
      ? { lines: rows.map(({ cells }) => rowLine(cells)), faults: [] }
      : withFaults(rows);
  return { csv: `${[headingLine(), ...lines].join("\n")}\n`, truth, faults };
}

/** Every operation as a row, in order of day, numbered as cases. */
function recordRows(
  random: Random,
  courses: readonly EyeCourse[],
): { readonly rows: readonly RecordedRow[]; readonly truth: readonly TruthRow[] } {
  const operations = courses
    .flatMap(({ operations }) => operations)
    .sort((a, b) => a.day - b.day || (a.patient.code < b.patient.code ? -1 : 1));
  const caseIds = new Map(operations.map((operation, index) => [operation, caseId(index)]));
  const last = new Set(courses.map(({ operations }) => operations.at(-1)));
  return {
    rows: operations.map((operation) => {
      const cells = leaveGaps(random, cellsOf(operation, caseIds.get(operation)!));
      return { cells: { ...cells, notes: drawNote(random) }, lastOfEye: last.has(operation) };
    }),
    truth: courses.map(({ truth, operations }) => ({
      ...truth,
      case: caseIds.get(operations[0]!)!,
    })),
  };
}

/** "0001": the leading noughts are part of it. */
function caseId(index: number): string {
  return String(index + 1).padStart(4, "0");
}
