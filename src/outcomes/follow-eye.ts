import type { EyeHistory } from "./eye-history.ts";
import type { EyeState } from "./eye-record.ts";
import { isDatedEvent, type OutcomeRules } from "./outcome-rules.ts";

/** How one eye's follow-up went under the rules. */
export interface Followed {
  /** Whole days from the start of its clock. */
  readonly time: number;
  readonly event: boolean;
  readonly undecided: boolean;
  readonly state: EyeState;
}

/** A death counts as the end of follow-up where the eye was seen within three months before. */
const deathFollowsVisit = 91;

/**
 * The outcome of one eye under a definition of failure, a treatment of oil and of the undecided,
 * and cut at the window. Where an event and the end of follow-up share a day, the event counts.
 */
export function followEye(history: EyeHistory, rules: OutcomeRules): Followed {
  if (!isDatedEvent(rules.failure)) return decide(stateAtLastVisit(history, rules), history, rules);
  const whole = underOil(datedEvent(history, rules), history, rules);
  return decide(cutAtWindow(whole, rules), history, rules);
}

function datedEvent(history: EyeHistory, { failure }: OutcomeRules): Followed {
  const recorded = failure === "redetachment" ? history.redetached : history.reoperated;
  const failed = history.neverAttached ? 0 : recorded;
  if (failed !== null) return failedOn(failed);
  if (failure === "redetachment" && history.status === "detached")
    return failedOn(history.lastSeen);
  if (history.doubts.length > 0) return undecidedFrom(0, "unknown");
  return endOfFollowUp(history);
}

function failedOn(day: number): Followed {
  return { time: day, event: true, undecided: false, state: "failed" };
}

function undecidedFrom(day: number, state: EyeState): Followed {
  return { time: day, event: false, undecided: true, state };
}

/** Fluid under observation had not been called a failure by that visit; a blank says nothing. */
function endOfFollowUp(history: EyeHistory): Followed {
  const { lastSeen, died } = history;
  const state = stateOf(history.status);
  if (state === "unknown") return undecidedFrom(0, state);
  if (state === "under observation") return undecidedFrom(lastSeen, state);
  if (died !== null && died - lastSeen <= deathFollowsVisit) {
    return { time: died, event: false, undecided: false, state: "died" };
  }
  return { time: lastSeen, event: false, undecided: false, state };
}

function stateAtLastVisit(history: EyeHistory, rules: OutcomeRules): Followed {
  const { lastSeen } = history;
  const state = stateOf(history.lastStatus);
  if (state === "detached") return failedOn(lastSeen);
  if (rules.failure === "not attached without oil") {
    if (history.oilStillIn) return failedOn(lastSeen);
  } else if (history.oilStillIn && rules.oil !== "counted as attached") {
    return rules.oil === "counted as failed"
      ? failedOn(lastSeen)
      : undecidedFrom(lastSeen, "attached under oil");
  }
  const undecided = state === "unknown" || state === "under observation";
  return { time: lastSeen, event: false, undecided, state };
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
  if (inserted === null) return followed;
  switch (rules.oil) {
    case "counted as attached":
      return followed;
    case "counted as failed":
      return history.oilStillIn && !followed.event ? failedOn(history.lastSeen) : followed;
    case "censored at insertion":
      if (followed.time <= inserted) return followed;
      return { time: inserted, event: false, undecided: false, state: "attached under oil" };
    case "followed from removal":
      return inserted > 0 ? laterOil(followed, history) : fromRemoval(followed, history);
  }
}

/** Oil put in at a later operation does not move the clock: the eye was at risk before it. */
function laterOil(followed: Followed, history: EyeHistory): Followed {
  if (followed.event || !history.oilStillIn) return followed;
  return undecidedFrom(history.oilInserted ?? 0, "attached under oil");
}

function fromRemoval(followed: Followed, history: EyeHistory): Followed {
  const removed = history.oilRemoved;
  if (followed.event && (removed === null || followed.time < removed)) return failedOn(0);
  if (removed === null || (history.oilStillIn && !followed.event)) {
    return undecidedFrom(0, "attached under oil");
  }
  return { ...followed, time: Math.max(0, followed.time - removed) };
}

function cutAtWindow(followed: Followed, rules: OutcomeRules): Followed {
  const window = rules.window?.length;
  if (window === undefined || followed.time <= window) return followed;
  if (followed.event || followed.state === "died") {
    return { time: window, event: false, undecided: false, state: "attached" };
  }
  return { ...followed, time: window };
}

/** The undecided, decided where the reader says so; oil has a treatment of its own. */
function decide(followed: Followed, history: EyeHistory, rules: OutcomeRules): Followed {
  if (!followed.undecided || followed.state === "attached under oil") return followed;
  const seen = Math.min(history.lastSeen, rules.window?.length ?? Number.POSITIVE_INFINITY);
  if (rules.undecided === "failed") return failedOn(seen);
  if (rules.undecided === "attached") {
    return { time: seen, event: false, undecided: false, state: "attached" };
  }
  return followed;
}
