import type { Funnel, FunnelLevel } from "../../charts/funnel.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { binomialCounts } from "../../statistics/count-distributions.ts";
import { countTest } from "../../statistics/count-test.ts";
import { funnelPosition, proportionFunnelLimits } from "../../statistics/funnel-limits.ts";
import {
  type Overdispersion,
  overdispersion,
  proportionErrors,
} from "../../statistics/overdispersion.ts";
import type { AnswerCell, Caution, Sentence } from "../answer.ts";
import { smallNumbers } from "../answering/cautions.ts";
import { count, counted, percent, percentRange, pValue } from "../answering/wording.ts";
import { numberGiven, question, textGiven, type Worked } from "../question.ts";
import { departmentsGiven, departmentsParameter, pooledGroup } from "./departments.ts";
import { boundsCell, definitionWords, pooledAnswer, shareText } from "./pooled-answer.ts";
import { exactCounts, rateCorners, sumOf } from "./pooled-counts.ts";

/**
 * Does a department stand out by more than chance? Rates over the number of eyes known, within exact
 * binomial limits, interpolated, and over-dispersion measured (Spiegelhalter, Statistics in Medicine
 * 2005;24:1185). Departments are numbered by size unless their names are asked for; one that
 * withholds its counts is in the table with its bounds and is not judged.
 */
export const pooledFunnel = question(
  {
    name: "pooled_funnel",
    meaning: "each department's rate over the number of its eyes, within limits of chance",
    asks: "Does a department stand out by more than chance?",
    example: 'pooled_funnel(departments, names: "hidden")',
    parameters: [
      departmentsParameter,
      {
        ...{ name: "target", meaning: "the failure rate to stand around", takes: "value" },
        ...{ kinds: ["number"], required: false, whenLeftOut: "the rate of all together" },
      },
      {
        ...{ name: "names", meaning: "whether departments are named", takes: "value" },
        ...{
          kinds: ["text"],
          required: false,
          choices: ["hidden", "shown"],
          whenLeftOut: '"hidden"',
        },
      },
    ],
  },
  work,
);

const levels = [0.95, 0.998] as const;

interface PlacedDepartment {
  readonly name: string;
  readonly failed: number;
  readonly total: number;
  readonly p: number;
  readonly positions: readonly string[];
}

function work(given: GivenArguments): Worked {
  const files = departmentsGiven(given);
  const { parts } = pooledGroup(files, "all eyes", []);
  const exact = parts.flatMap((part) => {
    const counts = exactCounts(rateCorners([part]));
    return counts === undefined || counts.total === 0 ? [] : [{ ...counts, unit: part.file.unit }];
  });
  const together = exact.reduce(
    (sum, { failed, total }) => ({ failed: sum.failed + failed, total: sum.total + total }),
    { failed: 0, total: 0 },
  );
  const asked = numberGiven(given, "target");
  const target = asked ?? together.failed / Math.max(1, together.total);
  if (!(target > 0 && target < 1)) return { problems: [noTarget(given)] };
  const isShown = textGiven(given, "names", "hidden") === ("shown" as string);
  const ordered = isShown ? exact : [...exact].sort((a, b) => b.total - a.total);
  const placed = ordered.map(({ unit, ...counts }, at) =>
    placedDepartment(isShown ? unit : `no. ${at + 1}`, counts, target),
  );
  const bounded = parts.filter((part) => exactCounts(rateCorners([part])) === undefined);
  const dispersion = dispersionOf(placed, target, asked === undefined);
  const about =
    asked === undefined ? `all together ${percent(target)}` : `target ${percent(target)}`;
  return pooledAnswer(
    files,
    {
      question: "pooled_funnel",
      asks: pooledFunnel.asks,
      sentence: sentenceOf(placed, { about, dispersion, definition: definitionWords(files) }),
      table: {
        columns: [
          { label: "department", kind: "text" },
          { label: "outcome known", kind: "number" },
          { label: "failed", kind: "number" },
          { label: "failed of known", kind: "text" },
          { label: "95% limits", kind: "interval" },
          { label: "99.8% limits", kind: "interval" },
          { label: "lies", kind: "text" },
          { label: "p (exact)", kind: "number" },
        ],
        rows: [
          ...placed.map((each) => departmentRow(each, target)),
          ...bounded.map((part, at) =>
            boundedRow(isShown ? part.file.unit : `withholding counts, no. ${at + 1}`, part),
          ),
        ],
      },
      ...(placed.length === 0
        ? {}
        : { chart: { draw: "funnel" as const, funnel: drawn(placed, target, about) } }),
      figures: {
        headline: `${together.failed} of ${together.total}`,
        target,
        departments: placed.map(({ name, failed, total, p, positions }) => ({
          ...{ name, failed, total, p, position_95: positions[0] ?? null },
          position_998: positions[1] ?? null,
        })),
        dispersion_p: dispersion?.pValue ?? null,
        phi: dispersion?.phi ?? null,
        tau_squared: dispersion?.tauSquared ?? null,
      },
    },
    {
      used: sumOf(parts, "eyes"),
      cautions: [
        ...smallNumbers(
          placed.map(({ name, failed, total }) => ({ label: name, failed, eyes: total })),
        ),
        ...notJudged(bounded.length),
        noCaseMix,
      ],
    },
  );
}

const noCaseMix: Caution = {
  code: "no-case-mix",
  text: "No allowance is made for case mix: a department that takes the harder eyes will lie higher. With several departments, chance alone puts one in twenty outside the 95% limits.",
};

function notJudged(departments: number): Caution[] {
  if (departments === 0) return [];
  return [
    {
      code: "departments-not-judged",
      text: `${counted(departments, "department withholds", "departments withhold")} the counts that a place in the funnel needs and ${departments === 1 ? "is" : "are"} not judged.`,
    },
  ];
}

function placedDepartment(
  name: string,
  { failed, total }: { readonly failed: number; readonly total: number },
  target: number,
): PlacedDepartment {
  const positions = limitsAt(total, target).map((limits) => funnelPosition(failed / total, limits));
  const p = countTest(failed, binomialCounts(total, target)).pTwoSided;
  return { name, failed, total, p, positions };
}

function limitsAt(total: number, target: number) {
  return levels.flatMap((level) => proportionFunnelLimits(target, total, level) ?? []);
}

function dispersionOf(
  placed: readonly PlacedDepartment[],
  target: number,
  isEstimated: boolean,
): Overdispersion | null {
  if (placed.length < 2) return null;
  const values = placed.map(({ failed, total }) => failed / total);
  const standardErrors = proportionErrors(
    target,
    placed.map(({ total }) => total),
  );
  return overdispersion({ values, standardErrors, target }, { isEstimated });
}

function sentenceOf(
  placed: readonly PlacedDepartment[],
  {
    about,
    dispersion,
    definition,
  }: {
    readonly about: string;
    readonly dispersion: Overdispersion | null;
    readonly definition: string;
  },
): Sentence {
  if (placed.length === 0) return ["No department tells the counts that a funnel needs."];
  const outside = (level: 0 | 1) =>
    placed.filter(({ positions }) => positions[level] !== "inside").length;
  const apart =
    dispersion === null
      ? ""
      : ` Departments differ ${dispersion.pValue < 0.05 ? "more than" : "no more than"} chance explains (${pValue(dispersion.pValue)}; variance ${dispersion.phi.toFixed(1)} times that of chance, winsorised by a tenth).`;
  return [
    `Around ${about} (${definition}; exact limits), of ${counted(placed.length, "department")} ${count(outside(0))} outside the 95% limits and ${count(outside(1))} outside the 99.8% limits.${apart}`,
  ];
}

function departmentRow(
  { name, failed, total, p, positions }: PlacedDepartment,
  target: number,
): AnswerCell[] {
  const [inner, outer] = positions;
  const lies =
    outer !== "inside" ? `${outer} 99.8%` : inner !== "inside" ? `${inner} 95%` : "inside";
  return [
    { text: name, value: name },
    { text: count(total), value: total },
    { text: count(failed), value: failed },
    { text: percent(failed / total), value: failed / total },
    ...limitsAt(total, target).map(({ lower, upper }) => ({
      text: percentRange({ lower, upper }),
      value: null,
      limits: { lower, upper },
    })),
    { text: lies, value: lies },
    { text: pValue(p).replace("p = ", ""), value: p },
  ];
}

function boundedRow(name: string, part: Parameters<typeof rateCorners>[0][number]): AnswerCell[] {
  const { lowest, highest } = rateCorners([part]);
  const share = shareText(lowest.failed / lowest.total, highest.failed / highest.total);
  const none: AnswerCell = { text: "–", value: null };
  return [
    { text: name, value: name },
    boundsCell({ least: highest.total, most: lowest.total }),
    boundsCell(part.bounds.failed),
    { text: share, value: null },
    ...[none, none],
    { text: "not judged", value: "not judged" },
    none,
  ];
}

function drawn(placed: readonly PlacedDepartment[], target: number, targetLabel: string): Funnel {
  const largest = Math.max(...placed.map(({ total }) => total));
  const step = Math.max(1, Math.ceil(largest / 120));
  const sizes = Array.from({ length: Math.floor(largest / step) }, (_, at) => (at + 1) * step);
  return {
    scale: "share",
    ...{ target, targetLabel, counted: "failed" },
    across: "eyes whose outcome is known",
    limits: levels.map(
      (level, at): FunnelLevel => ({
        level,
        points: sizes.map((size) => {
          const { lower, upper } = limitsAt(size, target)[at] ?? { lower: 0, upper: 1 };
          return { size, lower, upper };
        }),
      }),
    ),
    points: placed.map(({ name, failed, total }) => ({
      ...{ label: name, size: total, value: failed / total, isOwn: false },
    })),
  };
}

function noTarget(given: GivenArguments): Problem {
  return {
    code: "not-a-risk",
    severity: "stop",
    place: { span: given.values.get("target")?.span ?? given.span },
    message: "there is no rate above 0 and below 1 to stand around",
    found: String(numberGiven(given, "target") ?? "the rate of all together"),
    expected: "a share such as target: 13%",
  };
}
