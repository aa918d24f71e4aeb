import type { RateIntervals } from "../../charts/rate-intervals.ts";
import { dayText } from "../../formula/calendar.ts";
import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import type { Problem, Span } from "../../problem/problem.ts";
import type { AnswerCell, AnswerColumn, Answered, AnswerTable, FigureRecord } from "../answer.ts";
import { estimateCell, limitsCell, noEstimate } from "../answering/estimate-cell.ts";
import { count } from "../answering/wording.ts";
import { numberGiven, question, thingGiven, valueGiven, type Worked } from "../question.ts";
import { measurable, measuredShares } from "./measured-share.ts";
import { cycleOpen, severalVerdicts } from "./standard-cautions.ts";
import {
  type JudgedShare,
  judged,
  type Standard,
  type StandardParts,
  standardText,
} from "./standard-parts.ts";
import { standardBrief, standardSentence } from "./standard-sentence.ts";

/**
 * Do we meet the standard? An answer that holds a share with its interval, set against a level
 * with its source: met, not met or cannot tell yet, decided by the interval and not by the point;
 * with the action, the role that sees to it and the day of re-audit, so that the cycle closes.
 */
export const standard = question(
  {
    name: "standard",
    meaning: "an answer against a standard: met, not met or cannot tell yet, by its interval",
    asks: "Do we meet the standard?",
    example:
      'standard(failure_rate(eyes, within: 12 months), at_least: 85%, source: "agreed by the unit")',
    parameters: [
      {
        name: "answer",
        meaning: "a failure rate, a curve, a set of definitions, a course or a change of acuity",
        takes: "value",
        kinds: ["answer"],
        required: true,
      },
      optional("at_least", "number", "the share of successes to be reached, such as 85%"),
      optional("at_most", "number", "the share of failures not to be passed, such as 15%"),
      {
        name: "source",
        meaning: "who set the standard, and when",
        takes: "value",
        kinds: ["text"],
        required: true,
      },
      optional("action", "text", "what is to be done"),
      optional("role", "text", "who sees to it: a role, not a name"),
      optional("re_audit", "day", "when it is looked at again"),
    ],
  },
  work,
);

function optional(name: string, kind: string, meaning: string): Parameter {
  return { name, meaning, takes: "value", kinds: [kind], required: false, whenLeftOut: "none" };
}

function work(given: GivenArguments): Worked {
  const of = thingGiven(given, "answer").content as Answered;
  const set = standardGiven(given);
  const measured = measuredShares(of.answer, "problem" in set ? "at least" : set.side);
  const problems = [
    ...("problem" in set ? [set.problem] : []),
    ...(measured === undefined ? [notMeasurable(of, given)] : []),
  ];
  if ("problem" in set || measured === undefined) return { problems };
  return answer({ of, measured, standard: set, judged: judged(measured, set) });
}

function standardGiven(given: GivenArguments): Standard | { readonly problem: Problem } {
  const atLeast = numberGiven(given, "at_least");
  const atMost = numberGiven(given, "at_most");
  const source = textOf(given, "source");
  const level = atLeast ?? atMost;
  const isOne = (atLeast === undefined) !== (atMost === undefined);
  if (!isOne || level === undefined) {
    return { problem: wrongLevel(given.span, "give either at_least or at_most, and one of them") };
  }
  if (level < 0 || level > 1) {
    return { problem: wrongLevel(given.span, "a standard is a share between 0% and 100%") };
  }
  if (source === undefined) {
    return { problem: wrongLevel(given.span, "a standard needs its source in words") };
  }
  return {
    side: atLeast === undefined ? "at most" : "at least",
    level,
    source,
    ...followUpGiven(given),
  };
}

function followUpGiven(given: GivenArguments): Pick<Standard, "action" | "role" | "reAudit"> {
  const action = textOf(given, "action");
  const role = textOf(given, "role");
  const day = valueGiven(given, "re_audit");
  return {
    ...(action === undefined ? {} : { action }),
    ...(role === undefined ? {} : { role }),
    ...(day?.kind === "day" ? { reAudit: day.day } : {}),
  };
}

/** What was written, or nothing for blanks. */
function textOf(given: GivenArguments, name: string): string | undefined {
  const value = valueGiven(given, name);
  const text = value?.kind === "text" ? value.text.trim() : "";
  return text === "" ? undefined : text;
}

function wrongLevel(span: Span, message: string): Problem {
  return {
    code: "wrong-standard",
    severity: "stop",
    place: { span },
    message,
    expected: 'at_least: 85%, source: "agreed by the unit, 2026"',
  };
}

function notMeasurable({ answer: { question: name } }: Answered, given: GivenArguments): Problem {
  return {
    code: "no-share-to-judge",
    severity: "stop",
    place: { span: given.values.get("answer")?.span ?? given.span },
    message: `an answer of ${name} holds no share with an interval to set against a standard`,
    found: name,
    expected: measurable.join(", "),
  };
}

function answer(parts: StandardParts): Worked {
  const { of, standard: set, judged: shares } = parts;
  const total = shares.at(-1);
  return {
    answered: {
      answer: {
        question: "standard",
        asks: "Do we meet the standard?",
        sentence: standardSentence(parts),
        brief: standardBrief(parts),
        table: standardTable(parts),
        chart: { draw: "intervals", intervals: drawn(parts) },
        cautions: [
          ...of.answer.cautions,
          ...severalVerdicts(shares.length - 1),
          ...cycleOpen(total?.verdict === "met", set),
        ],
        unit: of.answer.unit,
        used: of.answer.used,
        leftOut: of.answer.leftOut,
        figures: standardFigures(parts),
      },
      picks: of.picks,
      record: of.record,
    },
  };
}

function standardTable({
  measured,
  standard: set,
  judged: shares,
  of,
}: StandardParts): AnswerTable {
  const wanted = set.side === "at least" ? measured.success : measured.failure;
  const openable = (number: number, pick: string): AnswerCell => ({
    text: count(number),
    value: number,
    ...(of.picks.has(pick) ? { pick } : {}),
  });
  const isOpen = shares.some(({ open }) => open !== undefined);
  return {
    columns: [
      { label: of.answer.table.columns[0]?.label ?? "", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: measured.counted, kind: "number" },
      { label: `${wanted.heading} (95%)`, kind: "estimate" },
      ...(isOpen ? openColumns : []),
      { label: "standard", kind: "text" },
      { label: "verdict", kind: "text" },
    ],
    rows: shares.map((share) => [
      { text: share.label, value: share.label },
      openable(share.total, share.totalPick),
      openable(share.events, share.eventsPick),
      shareCell(share),
      ...(isOpen ? openCells(share, openable) : []),
      { text: standardText(set), value: set.level },
      { text: share.verdict, value: share.verdict },
    ]),
  };
}

/** Where the outcome of some is not known: how many, and how far they could move the share. */
const openColumns: readonly AnswerColumn[] = [
  { label: "not known", kind: "number" },
  { label: "bounds", kind: "interval" },
];

function openCells(
  { open }: JudgedShare,
  openable: (number: number, pick: string) => AnswerCell,
): AnswerCell[] {
  if (open === undefined) return [{ text: "0", value: 0 }, noEstimate];
  const limits = { lower: Math.min(open.none, open.all), upper: Math.max(open.none, open.all) };
  return [openable(open.eyes, open.pick), limitsCell(limits)];
}

function shareCell({ estimate, lower, upper }: JudgedShare): AnswerCell {
  if (estimate === null || lower === null || upper === null) return noEstimate;
  return estimateCell(estimate, { lower, upper });
}

function drawn({ measured, standard: set, judged: shares, of }: StandardParts): RateIntervals {
  const { short } = measured;
  const wanted = set.side === "at least" ? measured.success : measured.failure;
  const isCounted = wanted.heading.startsWith(short);
  const isOfCurve = shares.some(({ method }) => method.startsWith("Kaplan–Meier"));
  const splitBy = of.answer.table.columns[0]?.label ?? "";
  return {
    ...(splitBy === "" ? {} : { splitBy }),
    ...(isOfCurve ? { how: "by the curve" } : {}),
    tone: set.side === "at least" ? "attached" : "failed",
    counted: short,
    ...(isCounted ? {} : { rateOf: wanted.heading }),
    reference: { rate: set.level, label: `${standardText(set)} ${wanted.heading}` },
    rows: shares.map(({ label, events, total, estimate, lower, upper, eventsPick }) => ({
      label,
      events,
      total,
      rate: estimate,
      lower,
      upper,
      ...(of.picks.has(eventsPick) ? { pick: eventsPick } : {}),
    })),
  };
}

function standardFigures({ standard: set, judged: shares, of }: StandardParts): FigureRecord {
  const figures = (share: JudgedShare): FigureRecord => ({
    verdict: share.verdict,
    rate: share.estimate,
    lower: share.lower,
    upper: share.upper,
    interval: share.method,
  });
  const total = shares.at(-1);
  return {
    ...(total === undefined ? {} : figures(total)),
    headline: total?.verdict ?? "cannot tell yet",
    is_met: total?.verdict === "met",
    standard: set.level,
    side: set.side,
    source: set.source,
    of: of.answer.question,
    action: set.action ?? null,
    role: set.role ?? null,
    re_audit: set.reAudit === undefined ? null : dayText(set.reAudit),
    ...(shares.length === 1
      ? {}
      : {
          group_count: shares.length - 1,
          groups: shares.slice(0, -1).map((each) => ({ group: each.label, ...figures(each) })),
        }),
  };
}
