import { drawFailureDay } from "./failure-time.ts";
import { drawFollowUp, type FollowUp } from "./follow-up.ts";
import { chooseReoperator, teamOf } from "./operating-team.ts";
import type { FollowedOperation, Operation, Outcome } from "./operation.ts";
import { failedOutcome, heldOutcome, oilRemovedOutcome } from "./outcome.ts";
import type { Random } from "./random.ts";
import { chooseReoperation, eyeAtOilRemoval, eyeAtReoperation } from "./reoperation.ts";
import { drawTechniqueDetails, type Technique } from "./technique-details.ts";
import { theatreDay } from "./theatre-day.ts";
import { type FailureKind, oil, reoperationFailure } from "./truth.ts";

/** An operation and how its repair will fail, if it is seen for long enough; null: it holds. */
interface Start {
  readonly operation: Operation;
  readonly fate: FailureKind | null;
}

interface Step {
  readonly outcome: Outcome;
  readonly next: { readonly day: number; readonly oilRemoval: boolean } | null;
  /** How the eye will fail after its oil is out. */
  readonly pending: FailureKind | null;
}

/** Every operation on one eye from its primary repair to the extract day, in order. */
export function followCourse(
  random: Random,
  primary: Start,
  extract: number,
): readonly FollowedOperation[] {
  const done: FollowedOperation[] = [];
  for (let start: Start | null = primary; start !== null; ) {
    const { operation } = start;
    const step = followOperation(random, start, extract);
    const followed: FollowedOperation = { ...operation, outcome: step.outcome };
    done.push(followed);
    start = step.next === null ? null : nextStart(random, followed, step);
  }
  return done;
}

function followOperation(random: Random, { operation, fate }: Start, extract: number): Step {
  const primary = operation.number === 1;
  const followUp = drawFollowUp(random, { day: operation.day, primary, extract });
  if (operation.details.tamponade === "silicone oil") {
    return underOil(random, { operation, fate }, { followUp, extract });
  }
  return withoutOil(random, { operation, fate }, { followUp, extract });
}

interface Watched {
  readonly followUp: FollowUp;
  readonly extract: number;
}

function withoutOil(random: Random, { operation, fate }: Start, watched: Watched): Step {
  const { followUp, extract } = watched;
  const held = () => heldOutcome(random, operation, followUp);
  if (fate === null) return { outcome: held(), next: null, pending: null };
  const day = fate === "never attached" ? 0 : drawFailureDay(random, fate);
  const seen = operation.day + day;
  if (seen > followUp.visits.at(-1)!) return { outcome: held(), next: null, pending: null };
  const next = nextDay(random, operation, { seen, extract });
  const lastSeen = next ?? Math.max(seen, followUp.visits[0]!);
  const oilRemoved = operation.details.tamponade === "silicone oil" ? next : null;
  const failed = { failure: { kind: fate, day }, lastSeen, oilRemoved };
  const outcome = failedOutcome(random, operation, failed);
  return { outcome, next: next === null ? null : { day: next, oilRemoval: false }, pending: null };
}

/** Some fail under the oil; the others are only found out once it has been removed. */
function underOil(random: Random, start: Start, watched: Watched): Step {
  const { operation, fate } = start;
  const { followUp } = watched;
  if (fate === "never attached") return withoutOil(random, start, watched);
  if (fate !== null && random.chance(oil.failsUnderOilShare)) {
    return withoutOil(random, start, watched);
  }
  const planned = fate !== null || random.chance(oil.removedShare);
  const due = operation.day + random.whole(...oil.removalDays);
  const removal = theatreDay(random, due, Number.POSITIVE_INFINITY);
  if (!planned || removal > followUp.visits.at(-1)!) {
    return { outcome: heldOutcome(random, operation, followUp), next: null, pending: null };
  }
  const outcome = oilRemovedOutcome(random, operation, removal);
  return { outcome, next: { day: removal, oilRemoval: true }, pending: fate };
}

/** The day of the next operation, or null where none follows before the extract day. */
function nextDay(
  random: Random,
  operation: Operation,
  { seen, extract }: { readonly seen: number; readonly extract: number },
): number | null {
  const agreed = random.chance(operation.number === 1 ? 0.93 : operation.number < 4 ? 0.72 : 0.3);
  const day = theatreDay(random, seen + random.whole(1, 12), Number.POSITIVE_INFINITY);
  return agreed && day <= extract ? day : null;
}

function nextStart(random: Random, followed: FollowedOperation, step: Step): Start {
  const { day, oilRemoval } = step.next!;
  const eye = oilRemoval
    ? eyeAtOilRemoval(random, followed, day)
    : eyeAtReoperation(random, followed, day);
  const technique: Technique = oilRemoval
    ? "oil removal"
    : chooseReoperation(random, followed, eye);
  const operation: Operation = {
    patient: followed.patient,
    day,
    number: followed.number + 1,
    team: teamOf(random, chooseReoperator(random), 1),
    eye,
    technique,
    details: drawTechniqueDetails(random, technique, eye),
  };
  return { operation, fate: oilRemoval ? step.pending : fateOfReoperation(random, followed) };
}

function fateOfReoperation(random: Random, failed: FollowedOperation): FailureKind | null {
  const scarred = failed.outcome.causes.includes("PVR");
  const chance = scarred ? reoperationFailure.afterPvr : reoperationFailure.plain;
  if (!random.chance(chance)) return null;
  return random.chance(scarred ? 0.75 : 0.4) ? "PVR" : "other";
}
