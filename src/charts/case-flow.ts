/** How rows became the eyes analysed: the boxes of a flow diagram, finished counts. */
export interface CaseFlow {
  /** From what was read to what is analysed. */
  readonly stages: readonly FlowStage[];
  /** How the last stage divides. */
  readonly outcomes: readonly FlowOutcome[];
}

export interface FlowStage extends FlowCount {
  /** What was left out on the way to the next stage, by reason. */
  readonly leftOut: readonly FlowCount[];
}

export interface FlowOutcome extends FlowCount {
  readonly tone?: "failed" | "attached";
}

export interface FlowCount {
  /** What is counted, as in "rows read". */
  readonly label: string;
  readonly count: number;
  /** What a click on it opens. */
  readonly pick?: string;
}

/** All that was left out at a stage. */
export function leftOutTotal({ leftOut }: FlowStage): number {
  return leftOut.reduce((sum, { count }) => sum + count, 0);
}
