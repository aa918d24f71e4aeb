import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Problem } from "../../problem/problem.ts";
import { cannotExpect } from "../people/cannot-expect.ts";
import { type Expectation, expectationGiven } from "../people/expectation.ts";
import { type ExpectedRisks, expectedRisks } from "../people/expected-risks.ts";
import { inOrder } from "../people/in-order.ts";
import { among, type JudgedEyes, judgedEyes } from "../people/judged-eyes.ts";
import { type OnePerson, onePerson, othersAreOne } from "../people/one-person.ts";

/** One person's known eyes in the order of operation, each with its expected risk. */
export interface PersonSeries {
  readonly person: OnePerson;
  /** The person's own eyes. */
  readonly judged: JudgedEyes;
  readonly eyes: readonly number[];
  readonly failed: readonly boolean[];
  readonly risks: readonly number[];
  /** Whole days since 1970-01-01; null where the file has none. */
  readonly days: readonly (number | null)[];
  readonly isByDay: boolean;
  /** Known eyes that have no place in it, by why. */
  readonly silent: ExpectedRisks["silent"];
  readonly basis: ExpectedRisks["basis"];
  readonly model: ExpectedRisks["model"];
  readonly expectation: Expectation;
}

/** The series of the surgeon named by this argument, or what stands against it. */
export function personSeries(
  record: EyeRecord,
  given: GivenArguments,
  name = "surgeon",
): { readonly series: PersonSeries } | { readonly problems: readonly Problem[] } {
  const found = judgedEyes(record, given);
  const wanted = expectationGiven(record, given);
  const named = onePerson(record, given, name);
  const problems = [found, wanted, named].flatMap((each) =>
    "problems" in each ? each.problems : [],
  );
  if ("problems" in found || "problems" in wanted || "problems" in named) return { problems };
  const { person } = named;
  const { expectation } = wanted;
  const span = given.values.get(name)?.span ?? given.span;
  const alone = expectation.kind === "published" ? [] : othersAreOne(person, span);
  if (alone.length > 0) return { problems: alone };
  const told = expectedRisks(found.judged, expectation);
  if ("problems" in told) return told;
  const judged = among(found.judged, person.eyes);
  const risks = told.risksOf(judged.known);
  if ("cannot" in risks) return { problems: [cannotExpect(risks.cannot, given)] };
  return { series: seriesOf(judged, risks, { person, expectation }) };
}

function seriesOf(
  judged: JudgedEyes,
  risks: ExpectedRisks,
  about: Pick<PersonSeries, "person" | "expectation">,
): PersonSeries {
  const ordered = inOrder(judged.record, risks.eyes);
  const riskOf = new Map(risks.eyes.map((eye, i) => [eye, risks.risks[i] ?? 0]));
  const { withoutDay } = ordered;
  const undated = { reason: "the day of operation is not recorded", eyes: withoutDay };
  return {
    ...about,
    judged,
    eyes: ordered.eyes,
    failed: ordered.eyes.map(judged.hasFailed),
    risks: ordered.eyes.map((eye) => riskOf.get(eye) ?? 0),
    days: ordered.days,
    isByDay: ordered.isByDay,
    silent: withoutDay.length === 0 ? risks.silent : [...risks.silent, undated],
    basis: risks.basis,
    model: risks.model,
  };
}
