import type { FlowCount, FlowOutcome } from "./case-flow.ts";

/** Eyes from an event through what was done next to how they ended: finished counts. */
export interface Course {
  readonly start: FlowCount;
  readonly steps: readonly CourseStep[];
}

export interface CourseStep extends FlowCount {
  /** How the eyes of the step divide at the end; they add up to its count. */
  readonly ends: readonly FlowOutcome[];
}
