import { describe, expect, test } from "vitest";
import { rateText } from "../../src/charts/rate-intervals.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
import { csvCases } from "./csv-cases.ts";
import { eyesOf, type GroupOfEyes, groupsOfEyes, rowsOfGroups } from "./groups-of-eyes.ts";

interface GroupFigures {
  readonly group: string;
  readonly eyes: number;
  readonly failed: number;
  readonly rate: number;
  readonly rate_lower: number;
  readonly rate_upper: number;
}

function groupsOf(figures: Readonly<Record<string, unknown>>): readonly GroupFigures[] {
  return figures.groups as readonly GroupFigures[];
}

describe("standardised_rate on published data", () => {
  // Hosmer and Lemeshow's 189 births; rates, limits and p by R 4.2.2 (glm, predictions with smoking
  // set for all, the delta method on the logit; R stops its iterations early).
  const births = {
    eyes: workedOut("eyes_from(cases, time: bwt, event: low = 1)", {
      cases: casesValue(csvCases("birthwt.csv")),
    }),
  };
  const race = 'race: if race = 1 then "white" else if race = 2 then "black" else "other"';
  const smoking = 'if smoke = 1 then "smoker" else "no smoker"';
  const working = `standardised_rate(eyes, by: ${smoking}, age, lwt, ${race}, ptl, ht, ui)`;
  const { figures, answer, rows, sentence, lines } = ask(working, births);

  test("the rates as if all were in each group, and their difference", () => {
    const [none, smoker] = groupsOf(figures);
    expect(none?.rate).toBeCloseTo(0.2458059961, 8);
    expect(smoker?.rate).toBeCloseTo(0.41627112, 8);
    expect(smoker?.rate_lower).toBeCloseTo(0.3102420792, 5);
    expect(smoker?.rate_upper).toBeCloseTo(0.5306585159, 5);
    expect(figures.difference).toBeCloseTo(0.1704651238, 8);
    expect(figures.difference_lower).toBeCloseTo(0.02747337579, 5);
    expect(figures.difference_upper).toBeCloseTo(0.31345687187, 5);
    expect(figures.p).toBeCloseTo(0.01946327399, 5);
  });

  test("sentence, table and chart say the same to the displayed digit", () => {
    if (answer.chart?.draw !== "intervals") throw new Error("no rates are drawn");
    expect(answer.chart.intervals.rows.map(rateText)).toEqual(rows.map((row) => row[4]));
    expect(sentence).toContain("smoker 41.6% (");
    expect(sentence).toContain("crude 40.5%, 30 of 74");
    expect(sentence).toContain("smoker less no smoker 17.0 percentage points (");
    expect(lines(answer.table.rows[1]?.[2]?.pick)).toHaveLength(30);
  });

  test("the bootstrap of a seed is the same each time, and near the delta method", () => {
    const asked = `${working.slice(0, -1)}, interval: "bootstrap", seed: 7, replicates: 300)`;
    const [one, two] = [ask(asked, births), ask(asked, births)];
    expect(one.figures).toEqual(two.figures);
    expect(one.figures).toMatchObject({ seed: 7, interval: "bootstrap percentile" });
    expect(one.figures.difference).toBeCloseTo(0.1704651238, 8);
    expect(Math.abs(Number(one.figures.difference_lower) - 0.02747337579)).toBeLessThan(0.04);
    expect(Math.abs(Number(one.figures.difference_upper) - 0.31345687187)).toBeLessThan(0.04);
    expect(one.sentence).toContain("(95% bootstrap percentile intervals)");
    const other = ask(asked.replace("seed: 7", "seed: 8"), births);
    expect(other.figures.difference_lower).not.toBe(one.figures.difference_lower);
  });
});

describe("standardised_rate by Cox's model", () => {
  test("the mean predicted risk at the window, as R's coxph and basehaz give it", () => {
    // The data `lung` of R's survival 3.5-3, cut at 365 days: 227 rows complete, 120 deaths.
    const lung = {
      eyes: workedOut("eyes_from(cases, time: days, event: dead = 2)", {
        cases: casesValue(csvCases("lung.csv", { time: "days", status: "dead" })),
      }),
    };
    const { figures, answer } = ask(
      'standardised_rate(eyes, by: if sex = 1 then "male" else "female", age, ph_ecog, within: 365 days, replicates: 200)',
      lung,
    );
    const [female, male] = groupsOf(figures);
    expect(male?.rate).toBeCloseTo(0.668330364052, 8);
    expect(female?.rate).toBeCloseTo(0.453881472727, 8);
    expect(figures).toMatchObject({ failed: 120, eyes: 227, model: "Cox" });
    expect(Number(figures.difference)).toBeCloseTo(0.453881472727 - 0.668330364052, 8);
    expect(answer.cautions.map(({ code }) => code)).toContain("standardised-on-record");
  });
});

describe("standardised_rate on eyes", () => {
  const mix = (more: readonly GroupOfEyes[] = []): readonly GroupOfEyes[] => [
    { technique: "vitrectomy", pvr_grade: "none", failed: 12, attached: 60, lost: 5 },
    { technique: "vitrectomy", pvr_grade: "B", failed: 18, attached: 22 },
    { technique: "scleral buckle", pvr_grade: "none", failed: 8, attached: 40 },
    { technique: "scleral buckle", pvr_grade: "B", failed: 5, attached: 6 },
    ...more,
  ];
  const working = "standardised_rate(eyes, by: technique, pvr_grade)";
  const { figures, answer, cautions, sentence, lines } = ask(
    `${working.slice(0, -1)}, model: "logistic")`,
    { eyes: groupsOfEyes(mix()) },
  );

  test("without any term to allow for it would be the crude rate; with one it weighs strata", () => {
    // Saturated in PVR by technique it would be the weighted mean of strata: a bound by hand.
    const [buckle] = groupsOf(figures);
    const none = 72 + 48;
    const some = 40 + 11;
    const byHand = ((8 / 48) * none + (5 / 11) * some) / (none + some);
    expect(buckle?.rate).toBeGreaterThan(13 / 59);
    expect(buckle?.rate).toBeCloseTo(byHand, 1);
  });

  test("eyes that are not known are left out, counted, and can be opened", () => {
    expect(answer.used).toBe(171);
    expect(answer.leftOut).toEqual([
      { reason: "outcome at 12 months not known", count: 5, pick: "unknown" },
    ]);
    expect(lines("unknown")).toHaveLength(5);
    expect(cautions).toEqual(["standardised-on-record"]);
    expect(sentence).toMatch(
      /^Standardised to the pvr grade of all 171 eyes whose outcome at 12 months is known \(43 failed within 12 months; logistic model\), the failure rate \(95% delta-method intervals\) is scleral buckle /,
    );
  });

  test("where eyes are lost, Cox's model uses each as long as it was followed", () => {
    const lossy = mix([
      { technique: "vitrectomy", pvr_grade: "none", failed: 0, attached: 0, lost: 60 },
    ]);
    const asked = `${working.slice(0, -1)}, replicates: 200)`;
    const cox = ask(asked, { eyes: groupsOfEyes(lossy) });
    expect(cox.figures).toMatchObject({ model: "Cox", interval: "bootstrap percentile", seed: 1 });
    expect(cox.answer.used).toBe(236);
    expect(cox.answer.leftOut).toEqual([]);
    expect(cox.sentence).toMatch(
      /^Standardised to the pvr grade of all 236 eyes \(43 failed within 12 months; Cox model\), the failure rate \(95% bootstrap percentile intervals\) is scleral buckle .* by its own curve /,
    );
    // All failures come before any loss: what was lost later is no failure, so the rate is lower.
    const known = ask(`${working.slice(0, -1)}, model: "logistic")`, { eyes: groupsOfEyes(lossy) });
    const vitrectomy = (of: typeof known) => groupsOf(of.figures)[1];
    expect(vitrectomy(cox)?.rate).toBeLessThan((vitrectomy(known)?.rate ?? 0) - 0.03);
    const drawn = vitrectomy(cox);
    expect(drawn?.rate_lower).toBeLessThan(drawn?.rate ?? 0);
    expect(drawn?.rate_upper).toBeGreaterThan(drawn?.rate ?? 1);
  });

  test("Cox's model has no delta limits, and needs a window", () => {
    const eyes = groupsOfEyes(mix());
    expect(() =>
      ask(`${working.slice(0, -1)}, model: "Cox", interval: "delta")`, { eyes }),
    ).toThrow("have no delta-method limits");
    const open = eyesOf(rowsOfGroups(mix()), 'failure: "redetachment"');
    expect(() => ask(`${working.slice(0, -1)}, model: "Cox")`, { eyes: open })).toThrow(
      "no window is given",
    );
  });

  test("a level that one of the groups has no eye of is said", () => {
    const eyes = groupsOfEyes(
      mix([{ technique: "vitrectomy", pvr_grade: "C", failed: 6, attached: 6 }]),
    );
    const said = ask(working, { eyes }).answer.cautions.find(
      ({ code }) => code === "groups-without-overlap",
    );
    expect(said?.text).toContain("no eye of scleral buckle with pvr grade C");
  });

  test("eyes of other groups, and silent ones, are set aside", () => {
    const eyes = groupsOfEyes(
      mix([
        { technique: "pneumatic retinopexy", pvr_grade: "none", failed: 3, attached: 6 },
        { technique: null, pvr_grade: "none", failed: 1, attached: 1 },
        { technique: "vitrectomy", pvr_grade: null, failed: 1, attached: 2 },
      ]),
    );
    const { answer: two } = ask(
      'standardised_rate(eyes, by: technique, pvr_grade, groups: ["scleral buckle", "vitrectomy"], model: "logistic")',
      { eyes },
    );
    expect(two.leftOut.map(({ reason, count }) => `${reason}: ${count}`)).toEqual([
      "technique not recorded: 2",
      "pvr grade not recorded: 3",
      "outcome at 12 months not known: 5",
      "technique is pneumatic retinopexy: 9",
    ]);
  });

  test.each<[string, readonly GroupOfEyes[], string]>([
    [
      "a group in which none failed",
      mix([{ technique: "pneumatic retinopexy", pvr_grade: "none", failed: 0, attached: 12 }]),
      "none or all failed with pneumatic retinopexy",
    ],
    ["too few failures", mix().map((row) => ({ ...row, failed: 1 })), "cannot carry a model"],
    ["one group", mix().slice(2), "there is only scleral buckle"],
    [
      "no eye with all terms",
      mix().map((row) => ({ ...row, pvr_grade: null })),
      "no eye is left on which",
    ],
  ])("%s is refused in words", (_, groups, message) => {
    expect(() => ask(working, { eyes: groupsOfEyes(groups) })).toThrow(message);
  });

  const faultsOf = (asked: string, groups: readonly GroupOfEyes[]): string => {
    try {
      ask(asked, { eyes: groupsOfEyes(groups) });
    } catch (fault) {
      return String(fault);
    }
    return "";
  };

  test("a fault of the model is told once and names each term once", () => {
    const silent = faultsOf(
      "standardised_rate(eyes, by: technique, pvr_grade, lens, macula)",
      mix().map((row) => ({ ...row, pvr_grade: null, lens: null, macula: "on" })),
    );
    expect(silent.match(/left on which/g)).toHaveLength(1);
    expect(silent).toContain("no eye is left on which pvr_grade, lens and macula are all recorded");
    expect(silent).toContain("176 eyes, pvr_grade not recorded in 176, lens not recorded in 176");
    const same = faultsOf(
      "standardised_rate(eyes, by: technique, technique)",
      mix([{ technique: "pneumatic retinopexy", pvr_grade: "none", failed: 4, attached: 12 }]),
    );
    expect(same).toContain("technique can be told from what stands before it in the model");
    expect(same.match(/told from/g)).toHaveLength(1);
  });

  test("rows count with the tolerance: eyes, failures and crude rate are of the same eyes", () => {
    const early = rowsOfGroups(mix()).map((row, eye) =>
      eye % 3 === 0 && row.redetachment_date === undefined
        ? { ...row, last_seen_date: 1000 + 355 }
        : row,
    );
    const eyes = eyesOf(early);
    const model = 'model: "logistic"';
    const counts = (tolerance: string) =>
      ask(`standardised_rate(eyes, by: technique, pvr_grade, ${model}${tolerance})`, { eyes });
    const strict = counts("");
    const lenient = counts(", tolerance: 2 weeks");
    const rate = ask("failure_rate(eyes, by: technique, tolerance: 2 weeks)", { eyes });
    expect(lenient.answer.used).toBeGreaterThan(strict.answer.used);
    expect(lenient.rows.map((row) => row.slice(0, 4))).toEqual(
      rate.rows.slice(0, 2).map((row) => [row[0], row[5], row[2], row[6]]),
    );
  });

  test("a group under ten eyes is set aside, unless it is named", () => {
    const eyes = groupsOfEyes(
      mix([{ technique: "pneumatic retinopexy", pvr_grade: "none", failed: 3, attached: 4 }]),
    );
    const asked = `${working.slice(0, -1)}, model: "logistic")`;
    const { answer: without, cautions: said } = ask(asked, { eyes });
    expect(said).toContain("small-groups-aside");
    expect(without.leftOut.at(-1)).toEqual({
      reason: "technique is pneumatic retinopexy",
      count: 7,
      pick: "other0",
    });
    const named = ask(`${asked.slice(0, -1)}, groups: ["pneumatic retinopexy", "vitrectomy"])`, {
      eyes,
    });
    expect(groupsOf(named.figures).map(({ group }) => group)).toEqual([
      "pneumatic retinopexy",
      "vitrectomy",
    ]);
  });

  test("a seed that is none is refused", () => {
    const asked = `${working.slice(0, -1)}, interval: "bootstrap", seed: 1.5)`;
    expect(() => ask(asked, { eyes: groupsOfEyes(mix()) })).toThrow("seed is 1.5");
  });

  test("of people nothing is said in the sentence, all in the table", () => {
    const eyes = groupsOfEyes(
      mix().map((row, i) => ({ ...row, surgeon: i < 2 ? "A" : "B", technique: "vitrectomy" })),
    );
    const people = ask("standardised_rate(eyes, by: surgeon, pvr_grade)", { eyes });
    expect(people.sentence).toContain("each group stands in the table.");
    expect(people.cautions).toContain("comparing-people");
  });
});
