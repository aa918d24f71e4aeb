import { drawEyeBefore } from "./eye-before.ts";
import { followCourse } from "./eye-course.ts";
import {
  drawFailure,
  type FailureProbabilities,
  failureProbabilities,
  type RiskFeatures,
  riskFeatures,
} from "./failure.ts";
import { chooseSurgeon, operatorLogOdds, teamOf } from "./operating-team.ts";
import type { FollowedOperation } from "./operation.ts";
import type { Patient, Side } from "./patient.ts";
import type { Random } from "./random.ts";
import { chooseTechnique } from "./technique.ts";
import { drawTechniqueDetails } from "./technique-details.ts";
import { dayOf } from "./theatre-day.ts";
import { demo, type FailureKind, type PrimaryTechnique, period } from "./truth.ts";

/** What is true of one eye, whether or not the file shows it. */
export interface EyeTruth {
  readonly patient: string;
  readonly eye: Side;
  readonly technique: PrimaryTechnique;
  readonly surgeon: string;
  /** Which of this surgeon's primary repairs it was, from 1. */
  readonly order: number;
  readonly features: RiskFeatures;
  readonly probabilities: FailureProbabilities;
  /** How the primary repair fails if the eye is watched for long enough; null: it holds. */
  readonly failure: FailureKind | null;
}

export interface EyeCourse {
  readonly truth: EyeTruth;
  /** Every operation on the eye, the primary repair first. */
  readonly operations: readonly FollowedOperation[];
}

interface PlannedPrimary {
  readonly patient: Patient;
  readonly side: Side;
  readonly day: number;
}

/** Every eye's primary repair, in order of day, and what came after it. */
export function drawCourses(random: Random, patients: readonly Patient[]): readonly EyeCourse[] {
  const planned = patients
    .flatMap((patient) => patient.primaries.map((primary) => ({ patient, ...primary })))
    .sort((a, b) => a.day - b.day);
  const scale = planned.length / demo.eyes;
  const orders = new Map<string, number>();
  return planned.map((primary) => drawCourse(random, primary, { orders, scale }));
}

interface Unit {
  /** Primary repairs so far, by surgeon. */
  readonly orders: Map<string, number>;
  readonly scale: number;
}

function drawCourse(
  random: Random,
  { patient, side, day }: PlannedPrimary,
  { orders, scale }: Unit,
): EyeCourse {
  const eye = drawEyeBefore(random, patient, { side, day });
  const operator = chooseSurgeon(random, eye);
  const order = (orders.get(operator.code) ?? 0) + 1;
  orders.set(operator.code, order);
  const technique = chooseTechnique(random, eye);
  const features = riskFeatures(eye, patient.smoker);
  const logOdds = operatorLogOdds(operator.code, { day, order, scale });
  const probabilities = failureProbabilities(features, technique, logOdds);
  const failure = drawFailure(random, probabilities);
  const team = teamOf(random, operator, progressOf(day));
  const details = drawTechniqueDetails(random, technique, eye);
  const operation = { patient, day, number: 1, team, eye, technique, details };
  const start = { operation, fate: failure };
  const surgeon = operator.code;
  return {
    operations: followCourse(random, start, dayOf(period.extract)),
    truth: {
      ...{ patient: patient.code, eye: side, technique, surgeon, order },
      ...{ features, probabilities, failure },
    },
  };
}

/** How much of the period has passed, from 0 to 1. */
function progressOf(day: number): number {
  return (day - dayOf(period.first)) / (dayOf(period.last) - dayOf(period.first));
}
