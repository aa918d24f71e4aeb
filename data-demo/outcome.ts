import { drawAcuityAfter } from "./acuity.ts";
import { drawCauses, type Failure } from "./failure-cause.ts";
import type { FollowUp } from "./follow-up.ts";
import type { Operation, Outcome, Status } from "./operation.ts";
import type { Random } from "./random.ts";
import { hasBuckle, hasVitrectomy } from "./technique-details.ts";

/** The retina held to the last visit. */
export function heldOutcome(random: Random, operation: Operation, followUp: FollowUp): Outcome {
  const status = heldStatus(random, operation);
  const lastSeen = followUp.visits.at(-1)!;
  return {
    ...nothingHappened,
    lastSeen,
    status,
    death: followUp.death,
    acuity: measure(random, operation, { day: lastSeen, status, chance: 0.94 }),
    complications: drawComplications(random, operation, lastSeen - operation.day),
  };
}

/** Oil was taken out as planned, on `removal`. */
export function oilRemovedOutcome(random: Random, operation: Operation, removal: number): Outcome {
  const status = "attached under oil";
  return {
    ...nothingHappened,
    lastSeen: removal,
    status,
    oilRemoved: removal,
    acuity: measure(random, operation, { day: removal, status, chance: 0.7 }),
    complications: drawComplications(random, operation, removal - operation.day),
  };
}

/**
 * The retina came off, or never lay flat (`failure.day` 0). Where it came off under oil, the oil
 * leaves with the next operation.
 */
export function failedOutcome(
  random: Random,
  operation: Operation,
  {
    failure,
    lastSeen,
    oilRemoved,
  }: { readonly failure: Failure; readonly lastSeen: number; readonly oilRemoved: number | null },
): Outcome {
  const never = failure.kind === "never attached";
  const seen = operation.day + failure.day;
  const context = { eye: operation.eye, buckled: hasBuckle(operation.technique) };
  return {
    ...nothingHappened,
    lastSeen,
    status: "detached",
    redetached: never ? null : seen,
    neverAttached: never,
    causes: drawCauses(random, failure, context),
    oilRemoved,
    acuity: never
      ? null
      : measure(random, operation, { day: seen, status: "detached", chance: 0.75 }),
    complications: drawComplications(random, operation, failure.day),
  };
}

const nothingHappened = {
  redetached: null,
  neverAttached: false,
  causes: [],
  oilRemoved: null,
  death: null,
} as const;

/** Fluid lingers under a retina that was buckled without drainage. */
function heldStatus(random: Random, { technique, details }: Operation): Status {
  if (random.chance(0.012)) return "unknown";
  if (details.tamponade === "silicone oil") return "attached under oil";
  const lingering = technique === "scleral buckle" && !details.subretinalDrainage ? 0.06 : 0.008;
  return random.chance(lingering) ? "under observation" : "attached";
}

/** Before this gas still fills the eye, or the surface has not settled. */
const soonestAcuityDays = 42;

function measure(
  random: Random,
  operation: Operation,
  visit: { readonly day: number; readonly status: Status; readonly chance: number },
): Outcome["acuity"] {
  if (visit.day - operation.day < soonestAcuityDays || !random.chance(visit.chance)) return null;
  const logMar = drawAcuityAfter(random, {
    eye: operation.eye,
    detached: visit.status === "detached",
    underOil: visit.status === "attached under oil",
    operationNumber: operation.number,
  });
  return { logMar, day: visit.day };
}

function drawComplications(
  random: Random,
  { technique, details, eye }: Operation,
  days: number,
): readonly string[] {
  const { tamponade } = details;
  const gas = tamponade !== "none" && tamponade !== "silicone oil" && tamponade !== "air";
  const keptLens = eye.lens === "phakic" && !details.lensRemoved && hasVitrectomy(technique);
  const chances: readonly (readonly [string, number])[] = [
    ["raised pressure", tamponade === "silicone oil" ? 0.16 : gas ? 0.08 : 0.02],
    ["epiretinal membrane", days > 80 ? 0.07 : 0],
    ["cataract", days > 150 && keptLens ? (eye.age > 50 ? 0.55 : 0.2) : 0],
    ["diplopia", hasBuckle(technique) ? 0.04 : 0],
    ["infection", 0.001],
    ["hypotony", eye.pvr.grade === "C" ? 0.07 : 0.004],
    ["macular fold", eye.macula !== "on" && gas ? 0.012 : 0],
    ["other", 0.015],
  ];
  const drawn = chances.filter(([, chance]) => random.chance(chance)).map(([name]) => name);
  return drawn.length === 0 ? ["none"] : drawn;
}
