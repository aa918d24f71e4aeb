import type { AnswerCell, AnswerTable, FigureRecord } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { estimateCell, noEstimate } from "../../answering/estimate-cell.ts";
import { count, percent } from "../../answering/wording.ts";
import { movingRates } from "./learning-chart.ts";
import {
  type CountedRate,
  countedRate,
  type LearningParts,
  type Third,
  trendOf,
} from "./learning-parts.ts";

/** All, by thirds in order, by supervision, and what stands beside. */
export function learningTable(parts: LearningParts, picks: PickBook): AnswerTable {
  const { difficulty, thirds, bySupervision, context, judged } = parts;
  const all = countedRate("all operations", parts.eyes, {
    hasFailed: judged.hasFailed,
    isOpen: true,
  });
  const groups: readonly (readonly [string, readonly (CountedRate | Third)[]])[] = [
    [parts.person.code, [all]],
    ["in order", thirds],
    ["by supervision", bySupervision],
    ["for context", context],
  ];
  return {
    columns: [
      { label: "", kind: "text" },
      { label: "operations", kind: "text" },
      { label: "outcome known", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "failed of known (95% Wilson)", kind: "estimate" },
      ...(difficulty === undefined ? [] : [{ label: difficulty.label, kind: "number" as const }]),
    ],
    rows: groups.flatMap(([group, rates], g) =>
      rates.map((rate, i) => [
        { text: i === 0 ? group : "", value: group },
        ...rateCells(rate, { key: `r${g}-${i}`, picks }),
        ...(difficulty === undefined ? [] : [difficultyCell(rate, difficulty.isShare)]),
      ]),
    ),
  };
}

function rateCells(
  { label, eyes, failedEyes, rate, interval, isOpen }: CountedRate,
  { key, picks }: { readonly key: string; readonly picks: PickBook },
): AnswerCell[] {
  const cell = (what: string, some: readonly number[]): AnswerCell =>
    isOpen
      ? picks.cell(`${key}:${what}`, `${label}, ${what}`, some)
      : { text: count(some.length), value: some.length };
  return [
    { text: label, value: label },
    cell("known", eyes),
    cell("failed", failedEyes),
    estimateCell(rate, interval),
  ];
}

function difficultyCell(rate: CountedRate | Third, isShare: boolean): AnswerCell {
  const value = "difficulty" in rate ? rate.difficulty : null;
  if (value === null) return noEstimate;
  return { text: isShare ? percent(value) : value.toFixed(2), value };
}

export function learningFigures(parts: LearningParts): FigureRecord {
  const { person, eyes, failed, design, found, judged, thirds, bySupervision, context } = parts;
  const { up, down, verdict, decidedAt } = found;
  const number = failed.filter(Boolean).length;
  const rates = (some: readonly CountedRate[]) =>
    some.map(({ label, eyes: of, failedEyes, rate }) => ({
      group: label,
      eyes: of.length,
      failed: failedEyes.length,
      rate,
    }));
  return {
    trainee: person.code,
    verdict,
    decided_at_operation: decidedAt === undefined ? null : decidedAt + 1,
    operations: eyes.length,
    failed: number,
    headline: `${number} of ${eyes.length}: ${verdict}`,
    headline_rate: eyes.length === 0 ? null : number / eyes.length,
    moving_rate: movingRates(failed, design.moving).at(-1)?.value ?? null,
    ...callFigures(found),
    more_without_failure: verdict === "reached" ? 0 : up.moreAtLeast,
    more_on_average: verdict === "reached" ? 0 : up.moreOnAverage,
    trend_z: trendOf(thirds)?.z ?? null,
    trend_p: trendOf(thirds)?.p ?? null,
    evidence: [...up.values],
    evidence_against: [...down.values],
    not_known: judged.unknown.length,
    too_recent: judged.tooRecent.length,
    thirds: thirds.map((third) => ({ ...rates([third])[0], difficulty: third.difficulty })),
    supervision: rates(bySupervision),
    context: rates(context),
  };
}

/** The limits, and how often and how soon each call comes wrongly and rightly. */
function callFigures({ up, down }: LearningParts["found"]): FigureRecord {
  return {
    limit_reached: up.limit,
    limit_not_reached: down.limit,
    wrongly_reached: up.wrongly,
    rightly_reached: up.rightly,
    wrongly_not_reached: down.wrongly,
    rightly_not_reached: down.rightly,
    run_length_wrongly_reached: up.runLengthWrongly,
    run_length_rightly_reached: up.runLengthRightly,
    run_length_wrongly_not_reached: down.runLengthWrongly,
    run_length_rightly_not_reached: down.runLengthRightly,
  };
}
