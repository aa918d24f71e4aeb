import type { GivenArguments } from "../../../formula/vocabulary.ts";
import type { Problem } from "../../../problem/problem.ts";
import type { Caution, Sentence } from "../../answer.ts";
import { smallNumbers } from "../../answering/cautions.ts";
import { count, counted, pValue } from "../../answering/wording.ts";
import { funnelLimitKinds } from "../../people/funnel/funnel-units.ts";
import { numberGiven, question, textGiven, type Worked } from "../../question.ts";
import { departmentsGiven, departmentsParameter, pooledGroup } from "../departments.ts";
import { areNamesShownIn, namesParameter } from "../names-of-departments.ts";
import { definitionWords, pooledAnswer } from "../pooled-answer.ts";
import { sumOf } from "../pooled-counts.ts";
import { isRate, type PlacedDepartments, placedDepartments } from "./placed-departments.ts";
import {
  aroundWords,
  drawnDepartments,
  pooledFunnelFigures,
  pooledFunnelTable,
} from "./pooled-funnel-table.ts";

/**
 * Does a department stand out by more than chance? Rates over the number of eyes known, within exact
 * binomial limits, interpolated; over-dispersion is measured, and widens the limits where asked
 * (Spiegelhalter, Statistics in Medicine 2005;24:1185). Departments are numbered by size unless their
 * names are asked for; one that withholds its counts is in the table with its bounds, not judged.
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
        ...{ name: "limits", meaning: "whether limits are widened for over-dispersion" },
        ...{ takes: "value", kinds: ["text"], required: false, choices: funnelLimitKinds },
        whenLeftOut: `"${funnelLimitKinds[0]}"`,
      },
      namesParameter,
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const files = departmentsGiven(given);
  const { parts } = pooledGroup(files, "all eyes", []);
  const found = placedDepartments(parts, {
    target: numberGiven(given, "target"),
    limits: textGiven(given, "limits", funnelLimitKinds[0]),
    areNamed: areNamesShownIn(given),
  });
  if (!isRate(found.target)) return { problems: [noTarget(given)] };
  return pooledAnswer(
    files,
    {
      question: "pooled_funnel",
      asks: pooledFunnel.asks,
      sentence: sentenceOf(found, definitionWords(files)),
      table: pooledFunnelTable(found),
      ...(found.placed.length === 0
        ? {}
        : { chart: { draw: "funnel" as const, funnel: drawnDepartments(found) } }),
      figures: pooledFunnelFigures(found),
    },
    { used: sumOf(parts, "eyes"), cautions: cautionsOf(found) },
  );
}

function sentenceOf(found: PlacedDepartments, definition: string): Sentence {
  const { placed, limits } = found;
  if (placed.length === 0) return ["No department tells the counts that a funnel needs."];
  const outside = (level: 0 | 1) =>
    placed.filter(({ positions }) => positions[level] !== "inside").length;
  const kind = limits === "exact" ? "exact limits" : "limits widened for over-dispersion";
  return [
    `Around ${aroundWords(found)} of those known (${definition}; ${kind}), of ${counted(placed.length, "department")} ${count(outside(0))} outside the 95% limits and ${count(outside(1))} outside the 99.8% limits.`,
    apartWords(found),
  ];
}

function apartWords({ dispersion, limits }: PlacedDepartments): string {
  if (dispersion === null) return "";
  const { pValue: p, phi } = dispersion;
  const than = p < 0.05 ? "more than" : "no more than";
  const read =
    p < 0.05 && limits === "exact"
      ? ": something that is not in the limits tells them apart, so read a point outside with that in mind"
      : "";
  return ` Departments differ ${than} chance explains (${pValue(p)}; variance ${phi.toFixed(1)} times that of chance, winsorised by a tenth)${read}.`;
}

function cautionsOf({ placed, bounded }: PlacedDepartments): Caution[] {
  return [
    ...smallNumbers(
      placed.map(({ name, failed, total }) => ({ label: name, failed, eyes: total })),
    ),
    ...notJudged(bounded.length),
    {
      code: "no-case-mix",
      text: "No allowance is made for case mix: a department that takes the harder eyes will lie higher. With several departments, chance alone puts one in twenty outside the 95% limits.",
    },
    {
      code: "of-those-known",
      text: "Rates here are of eyes whose outcome is known, which run high; a department that loses more of its eyes that did well lies higher for it.",
    },
  ];
}

function notJudged(departments: number): Caution[] {
  if (departments === 0) return [];
  return [
    {
      code: "departments-not-judged",
      text: `${counted(departments, "department withholds", "departments withhold")} the counts that a place in the funnel needs and ${departments === 1 ? "is" : "are"} not judged.`,
    },
  ];
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
