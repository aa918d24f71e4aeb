import { describe, expect, it } from "vitest";
import { generateDemo } from "../../data-demo/generate.ts";
import { dayOf } from "../../data-demo/theatre-day.ts";
import { demo, period, targets } from "../../data-demo/truth.ts";
import { failedShare } from "./failed-share.ts";
import { fileRows } from "./file-rows.ts";
import { type FollowedEye, followedEyes } from "./followed-eyes.ts";
import { type RecordedRisk, recordedRisk } from "./recorded-risk.ts";
import { mantelHaenszel, type Stratum } from "./two-by-two.ts";

/*
 * What is declared must show in the file that people open, small as it is: an audience takes what
 * it sees there for a finding.
 */
const eyes = followedEyes(fileRows(generateDemo(demo.seed, { faults: false }).csv));
const risks: readonly RecordedRisk[] = ["low", "middle", "high"];
const atRisk = (risk: RecordedRisk, among = eyes) =>
  among.filter(({ primary }) => recordedRisk(primary) === risk);
const using = (technique: string) => eyes.filter(({ primary }) => primary.technique === technique);
const count = (some: readonly FollowedEye[], has: (eye: FollowedEye) => boolean) =>
  some.filter(has).length;
const share = (some: readonly FollowedEye[], has = ({ failed }: FollowedEye) => failed) =>
  count(some, has) / some.length;

describe("failure by the risk before surgery", () => {
  it.each(risks)("lies in the declared range by six months: %s", (risk) => {
    const [failed = 0] = failedShare(atRisk(risk), [183]);
    const [least, most] = targets.failureByRisk[risk];
    expect(failed).toBeGreaterThan(least);
    expect(failed).toBeLessThan(most);
  });

  it("rises from low to middle to high, where every factor is recorded as well", () => {
    const fields = ["pvr_grade", "vitreous_haemorrhage", "smoker", "quadrants_detached"];
    const complete = eyes.filter(({ primary }) => fields.every((field) => primary[field] !== ""));
    for (const some of [eyes, complete]) {
      const [low = 0, middle = 0, high = 0] = risks.map(
        (risk) => failedShare(atRisk(risk, some), [183])[0],
      );
      expect(middle - low).toBeGreaterThan(0.03);
      expect(high - middle).toBeGreaterThan(0.05);
    }
  });

  it("from PVR rises likewise", () => {
    const fromPvr = ({ failed, causes }: FollowedEye) => failed && causes[0] === "PVR";
    const [low = 0, middle = 0, high = 0] = risks.map((risk) => share(atRisk(risk), fromPvr));
    expect(middle).toBeGreaterThan(low);
    expect(high).toBeGreaterThan(1.3 * middle);
  });
});

describe("eyes filled with oil", () => {
  const oil = eyes.filter(({ primary }) => primary.tamponade === "silicone oil");
  const underOil = ({ primary }: FollowedEye) => primary.status_last_seen === "detached";
  const removed = oil.filter((eye) => eye.primary.oil_removed_date !== "" && !underOil(eye));

  it("fail more often than the others, some of them under the oil", () => {
    expect(oil.length).toBeGreaterThan(20);
    expect(count(oil, underOil)).toBeGreaterThan(0);
    expect(share(oil)).toBeGreaterThan(share(eyes));
    expect(share(oil)).toBeLessThan(0.3);
  });

  it("detach after its removal as often as is published, to the nearest eye", () => {
    expect(removed.length).toBeGreaterThan(12);
    const published = targets.failureAfterOilRemoval * removed.length;
    expect(Math.abs(count(removed, ({ failed }) => failed) - published)).toBeLessThan(1);
  });
});

describe("failure by technique", () => {
  it("is highest after gas alone", () => {
    const gas = share(using("pneumatic retinopexy"));
    for (const technique of ["scleral buckle", "vitrectomy", "vitrectomy with buckle"]) {
      expect(gas).toBeGreaterThan(share(using(technique)));
    }
  });

  it("is higher after vitrectomy than after a buckle until like is compared with like", () => {
    const between = (among: readonly FollowedEye[]): Stratum => {
      const of = (technique: string) =>
        among.filter(({ primary }) => primary.technique === technique);
      const groups = [of("vitrectomy"), of("scleral buckle")] as const;
      return {
        failures: [count(groups[0], (eye) => eye.failed), count(groups[1], (eye) => eye.failed)],
        eyes: [groups[0].length, groups[1].length],
      };
    };
    const raw = mantelHaenszel([between(eyes)]).estimate;
    const within = mantelHaenszel(risks.map((risk) => between(atRisk(risk)))).estimate;
    expect(raw).toBeGreaterThan(Math.log(1.15));
    expect(Math.abs(within)).toBeLessThan(raw / 2);
  });
});

describe("what is known of eyes operated at least a year before the extract", () => {
  const early = eyes.filter(
    ({ primary }) => dayOf(period.extract) - dayOf(primary.operation_date!) >= 365,
  );
  const knownBy = (day: number) =>
    share(early, ({ primary, failed, days }) => {
      const undecided = ["under observation", "unknown", ""].includes(primary.status_last_seen!);
      return (failed && days <= day) || (!undecided && days >= day);
    });

  it.each([
    { day: 91, least: 0.87, most: 0.95 },
    { day: 183, least: 0.8, most: 0.86 },
    { day: 365, least: 0.68, most: 0.75 },
  ])("is from $least to $most of them on day $day", ({ day, least, most }) => {
    expect(knownBy(day)).toBeGreaterThan(least);
    expect(knownBy(day)).toBeLessThan(most);
  });

  it("leaves about the declared share lost before a year", () => {
    const possible = eyes.filter(
      ({ failed, primary }) =>
        !failed &&
        primary.operation_date! < "2025-02-01" &&
        primary.death_date === "" &&
        primary.tamponade !== "silicone oil",
    );
    const lost = share(possible, ({ days }) => days < 345);
    expect(Math.abs(lost - targets.lostBeforeTwelveMonths)).toBeLessThan(0.03);
  });
});
