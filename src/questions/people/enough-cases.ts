import type { TableDrawing } from "../../charts/table-drawing.ts";
import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { type EnoughCases, enoughCases, whatCasesTell } from "../../statistics/enough-cases.ts";
import { exactCasesPerGroup } from "../../statistics/two-group-power.ts";
import type { AnswerTable, FigureRecord, PickRecord, Sentence } from "../answer.ts";
import { noEstimate } from "../answering/estimate-cell.ts";
import { count, percent } from "../answering/wording.ts";
import { numberGiven, question, type Worked } from "../question.ts";
import { aboutPeople, severalLooks } from "./people-cautions.ts";

/** A design with its answers. */
interface EnoughParts {
  readonly target: number;
  readonly worse: number;
  readonly alpha: number;
  readonly power: number;
  readonly found: EnoughCases;
  /** Cases in each of two groups; null past reach. */
  readonly perGroup: number | null;
}

/**
 * How many cases before a rate could tell anything? The cases that one person (exact one-sided
 * binomial test of the target) and each of two groups (Fisher's exact test, two-sided) need to notice
 * the worse rate with the wanted power; the cases that show the rate to be under the target where none
 * failed (Hanley and Lippman-Hand 1983); and what smaller numbers can tell.
 */
export const enoughCasesQuestion = question(
  {
    name: "enough_cases",
    meaning: "how many cases before a rate of this kind could tell anything",
    asks: "How many cases would tell anything?",
    example: "enough_cases(target: 13%, worse: 26%)",
    parameters: [
      share("target", "the failure rate that is held against"),
      share("worse", "the higher failure rate that should be noticed"),
      { ...share("power", "the chance to notice it"), required: false, whenLeftOut: "80%" },
      {
        ...share("false_alarm", "the chance of crying wolf, on this side alone"),
        required: false,
        whenLeftOut: "2.5%",
      },
    ],
  },
  work,
);

function share(name: string, meaning: string): Parameter {
  return { name, meaning, takes: "value", kinds: ["number"], required: true };
}

function work(given: GivenArguments): Worked {
  const target = numberGiven(given, "target") ?? 0;
  const worse = numberGiven(given, "worse") ?? 0;
  const power = numberGiven(given, "power") ?? 0.8;
  const alpha = numberGiven(given, "false_alarm") ?? 0.025;
  const problems = faultsOf({ target, worse, power, alpha }, given);
  if (problems.length > 0) return { problems };
  const design = { target, worse, alpha, power };
  const found = enoughCases(design);
  const perGroup = exactCasesPerGroup({ rates: [target, worse], power, alpha: 2 * alpha });
  return answer({ ...design, found, perGroup });
}

function faultsOf(
  rates: { target: number; worse: number; power: number; alpha: number },
  given: GivenArguments,
): Problem[] {
  const { target, worse, power, alpha } = rates;
  const refused: readonly (readonly [string, boolean, number, string])[] = [
    ["target", target > 0 && target < 1, target, "a share above 0 and below 1, such as 13%"],
    ["worse", worse > target && worse < 1, worse, "a share above the target and below 1"],
    ["power", power > 0 && power < 1, power, "a share above 0 and below 1, such as 80%"],
    ["false_alarm", alpha > 0 && alpha < 0.5, alpha, "a share above 0 and below 50%"],
  ];
  return refused
    .filter(([, isRight]) => !isRight)
    .map(([name, , found, expected]) => ({
      code: "not-a-risk",
      severity: "stop",
      place: { span: given.values.get(name)?.span ?? given.span },
      message: `${name} cannot be ${found}`,
      found: String(found),
      expected,
    }));
}

function answer(parts: EnoughParts): Worked {
  return {
    answered: {
      answer: {
        question: "enough_cases",
        asks: "How many cases would tell anything?",
        sentence: enoughSentence(parts),
        brief: enoughBrief(parts),
        table: enoughTable(parts),
        chart: { draw: "table", drawing: drawnPower(parts) },
        cautions: [aboutPeople(), severalLooks()],
        unit: "cases",
        used: 0,
        leftOut: [],
        figures: enoughFigures(parts),
      },
      picks: new Map(),
      record: noRecord,
    },
  };
}

/** Nothing is counted, so nothing can be opened. */
const noRecord: PickRecord = { describe: () => ({ headings: [], rows: [] }) };

function enoughSentence({ target, worse, alpha, power, found, perGroup }: EnoughParts): Sentence {
  const { needed, withoutFailure } = found;
  const rates = `To notice a failure rate of ${percent(worse)} where ${percent(target)} is expected`;
  const one =
    needed === null
      ? `${rates} takes more than 200,000 cases.`
      : `${rates} takes ${count(needed.cases)} cases of one person: ${count(needed.criticalCount)} failures or more among them show that the rate is above ${percent(target)}, and there are as many ${percent(needed.power)} of the time if it is ${percent(worse)} (wanted: ${percent(power)}), ${percent(alpha)} of the time at most if it is not.`;
  const two =
    perGroup === null
      ? " Two people set side by side need more than 1,500 cases each."
      : ` Two people set side by side need ${count(perGroup)} cases each (Fisher's exact test).`;
  return [
    one,
    two,
    ` Without a single failure, ${count(withoutFailure)} cases show a rate under ${percent(target)}.`,
  ];
}

function enoughBrief({ target, worse, found: { needed }, perGroup }: EnoughParts): Sentence {
  const cases = needed === null ? "more than 200,000" : count(needed.cases);
  const two = perGroup === null ? "" : `; two people set side by side need ${count(perGroup)} each`;
  return [
    `To notice a rate of ${percent(worse)} where ${percent(target)} is expected takes ${cases} cases${two}.`,
  ];
}

/** Round numbers of cases, the number needed among them. */
function sizesOf({ found }: EnoughParts): number[] {
  const needed = found.needed === null ? [] : [found.needed.cases];
  return [...new Set([10, 20, 30, 50, 75, 100, 150, 200, 300, 500, ...needed])].sort(
    (a, b) => a - b,
  );
}

function enoughTable(parts: EnoughParts): AnswerTable {
  const { target, worse } = parts;
  return {
    columns: [
      { label: "cases", kind: "number" },
      { label: `failures that show more than ${percent(target)}`, kind: "number" },
      { label: `chance to notice ${percent(worse)}`, kind: "number" },
      { label: `none failed shows less than ${percent(target)}`, kind: "text" },
    ],
    rows: sizesOf(parts).map((cases) => {
      const { failuresToShow, power, canShowBetter } = whatCasesTell(cases, parts);
      const isNeeded = cases === parts.found.needed?.cases;
      return [
        { text: `${count(cases)}${isNeeded ? " (enough)" : ""}`, value: cases },
        failuresToShow === null
          ? noEstimate
          : { text: count(failuresToShow), value: failuresToShow },
        { text: percent(power), value: power },
        { text: canShowBetter ? "yes" : "no", value: canShowBetter ? "yes" : "no" },
      ];
    }),
  };
}

/** Power rises in a saw-tooth: drawn is what it does not fall below with more cases. */
function drawnPower(parts: EnoughParts): TableDrawing {
  const most = Math.max(100, Math.ceil(1.4 * (parts.found.needed?.cases ?? 500)));
  const step = Math.max(1, Math.round(most / 40));
  const powers = Array.from({ length: most + 100 }, (_, i) => whatCasesTell(i + 1, parts).power);
  for (let i = powers.length - 2; i >= 0; i--) {
    powers[i] = Math.min(powers[i] ?? 0, powers[i + 1] ?? 1);
  }
  const sizes = Array.from({ length: Math.floor(most / step) }, (_, i) => (i + 1) * step);
  return {
    as: "line",
    across: { label: "cases", kind: "count" },
    up: { label: `chance to notice ${percent(parts.worse)}, at least`, kind: "share" },
    groups: [],
    marks: sizes.map((cases) => ({
      across: cases,
      up: powers[cases - 1] ?? null,
      group: 0,
      rows: cases,
    })),
  };
}

function enoughFigures({
  target,
  worse,
  found,
  perGroup,
  power,
  alpha,
}: EnoughParts): FigureRecord {
  return {
    headline: found.needed === null ? "more than 200,000" : `${found.needed.cases} cases`,
    target,
    worse,
    power,
    false_alarm: alpha,
    cases: found.needed?.cases ?? null,
    critical_failures: found.needed?.criticalCount ?? null,
    power_reached: found.needed?.power ?? null,
    cases_per_group: perGroup,
    cases_without_failure: found.withoutFailure,
  };
}
