import type { EyeHistory } from "./eye-history.ts";
import type { EyeState } from "./eye-record.ts";
import type { OutcomeRules } from "./outcome-rules.ts";

/** How one eye's follow-up went under the rules. */
export interface Followed {
  /** Whole days from the start of its clock. */
  readonly time: number;
  readonly event: boolean;
  readonly undecided: boolean;
  readonly state: EyeState;
}

/**
 * The outcome of one eye under a definition of failure, a treatment of oil and of the undecided,
 * and cut at the window. Where an event and the end of follow-up share a day, the event counts.
 */
export function followEye(history: EyeHistory, rules: OutcomeRules): Followed {
  return cutAtWindow(decide(underOil(uncut(history, rules), history, rules), rules), rules);
}

/** The whole follow-up, as if no oil had been used and nothing were to be decided. */
function uncut(history: EyeHistory, rules: OutcomeRules): Followed {
  if (rules.failure === "redetachment" || rules.failure === "reoperation") {
    return datedEvent(history, rules.failure);
  }
  return stateAtLastVisit(history, rules.failure);
}

function datedEvent(history: EyeHistory, failure: "redetachment" | "reoperation"): Followed {
  const recorded = failure === "redetachment" ? history.redetached : history.reoperated;
  const failed = history.neverAttached ? 0 : recorded;
  if (failed !== null) return failedOn(failed);
  if (failure === "redetachment" && history.status === "detached")
    return failedOn(history.lastSeen);
  return endOfFollowUp(history);
}

function stateAtLastVisit(
  history: EyeHistory,
  failure: "not attached without oil" | "detached at last visit",
): Followed {
  const end = endOfFollowUp(history);
  const failed =
    end.state === "detached" ||
    (failure === "not attached without oil" && end.state === "attached under oil");
  return failed ? failedOn(end.time) : end;
}

function failedOn(day: number): Followed {
  return { time: day, event: true, undecided: false, state: "failed" };
}

function endOfFollowUp(history: EyeHistory): Followed {
  const state = history.died === null ? stateOf(history.status) : "died";
  return {
    time: history.died ?? history.lastSeen,
    event: false,
    undecided: state === "under observation" || state === "unknown",
    state,
  };
}

const known: readonly EyeState[] = [
  "attached",
  "attached under oil",
  "under observation",
  "detached",
];

function stateOf(status: string | null): EyeState {
  return known.find((state) => state === status) ?? "unknown";
}

function underOil(followed: Followed, history: EyeHistory, rules: OutcomeRules): Followed {
  const inserted = history.oilInserted;
  if (inserted === null || rules.failure === "not attached without oil") return followed;
  const removed = history.oilRemoved;
  switch (rules.oil) {
    case "counted as attached":
      return followed;
    case "counted as failed":
      return removed === null && !followed.event ? failedOn(followed.time) : followed;
    case "censored at insertion":
      if (followed.time <= inserted) return followed;
      return { time: inserted, event: false, undecided: false, state: "attached under oil" };
    case "followed from removal":
      if (followed.event && (removed === null || followed.time < removed)) return followed;
      return removed === null ? stillUnderOil(inserted) : fromRemoval(followed, inserted, removed);
  }
}

function stillUnderOil(inserted: number): Followed {
  return { time: inserted, event: false, undecided: true, state: "attached under oil" };
}

/** Oil put in at a later operation does not move the clock: the eye was at risk before it. */
function fromRemoval(followed: Followed, inserted: number, removed: number): Followed {
  if (inserted > 0) return followed;
  return { ...followed, time: Math.max(0, followed.time - removed) };
}

function decide(followed: Followed, rules: OutcomeRules): Followed {
  if (!followed.undecided || followed.state === "attached under oil") return followed;
  if (rules.undecided === "failed") return failedOn(followed.time);
  if (rules.undecided === "attached") return { ...followed, undecided: false, state: "attached" };
  return followed;
}

function cutAtWindow(followed: Followed, rules: OutcomeRules): Followed {
  const window = rules.window?.length;
  if (window === undefined || followed.time <= window) return followed;
  const readAtLastVisit = rules.failure !== "redetachment" && rules.failure !== "reoperation";
  if (followed.event && !readAtLastVisit) {
    return { time: window, event: false, undecided: false, state: "attached" };
  }
  return { ...followed, time: window };
}
