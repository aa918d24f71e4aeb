import { pointsText } from "../../charts/effect-intervals.ts";
import type { RateIntervals } from "../../charts/rate-intervals.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { AnswerTable, FigureRecord, Sentence } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { isComparingPeople } from "../answering/cautions.ts";
import {
  differenceCell,
  effectFigures,
  intervalsName,
  pCell,
  pointsRange,
} from "../answering/effect-cells.ts";
import { estimateCell, noEstimate } from "../answering/estimate-cell.ts";
import { rulesClause } from "../answering/failure-words.ts";
import { type Grouping, splitOf } from "../answering/grouping.ts";
import { shareMethod } from "../answering/share-interval.ts";
import { counted, percent, percentRange, pValue } from "../answering/wording.ts";
import type { GroupRate } from "../failure-rate/rate-of-group.ts";
import type { ModelData } from "../modelling/model-data.ts";
import { silentCount, silentWords, termNames } from "../modelling/model-effects.ts";
import type { Standardised, StandardisedGroup } from "./standardise.ts";

/** What the sentence, the table and the chart of standardised rates are all made from. */
export interface StandardisedParts {
  readonly record: EyeRecord;
  readonly window: TimeWindow | undefined;
  /** In the record's unit: visits may come this much early. */
  readonly tolerance: number;
  readonly grouping: Grouping;
  readonly data: ModelData;
  readonly standardised: Standardised;
  /** Label of the group that the others are set against. */
  readonly reference: string;
  readonly hasFailed: (eye: number) => boolean;
  readonly model: "logistic" | "Cox";
  /** By group: the rate as it is, of the eyes of the model in it. */
  readonly crude: readonly GroupRate[];
  readonly seed: number | undefined;
}

/** The rates of the groups over the same eyes, the crude ones beside them, and the differences. */
export function standardisedSentence(parts: StandardisedParts): Sentence {
  const { data, window, grouping, standardised, record, model } = parts;
  const when = window === undefined ? "" : ` within ${window.text}`;
  const known =
    window === undefined || model === "Cox" ? "" : ` whose outcome at ${window.text} is known`;
  const opening =
    `Standardised to the ${termNames(data)} of all ${counted(data.eyes.length, "eye")}` +
    `${known} (${standardised.failures} failed${when}; ${model} model), `;
  if (isComparingPeople(grouping.by)) {
    return [`${opening}each group stands in the table.`, silentWords(data), ...rulesClause(record)];
  }
  const method = standardised.groups[0]?.rate.method ?? "";
  const rates = standardised.groups.map((group, position) => rateWords(group, parts, position));
  return [
    `${opening}the failure rate (${intervalsName(method, rates.length)}) is ${rates.join("; ")}.`,
    ...differences(parts),
    silentWords(data),
    ...rulesClause(record),
  ];
}

/** "Standardised failure of 502 eyes, 4 groups by technique: 13.2% to 27.9%; 71 failed." */
export function standardisedBrief(parts: StandardisedParts): Sentence {
  const { data, grouping, standardised } = parts;
  const { groups, failures } = standardised;
  const rates = groups.map(({ rate }) => rate.estimate);
  const range = `${percent(Math.min(...rates))} to ${percent(Math.max(...rates))}`;
  return [
    `Standardised failure of ${counted(data.eyes.length, "eye")}, ${groups.length} groups by ` +
      `${grouping.label}: ${range}; ${failures} failed.`,
  ];
}

function rateWords(
  { label, rate, eyes }: StandardisedGroup,
  { crude, hasFailed, model }: StandardisedParts,
  position: number,
): string {
  const failed = `${eyes.filter(hasFailed).length} of ${eyes.length}`;
  const share = percent(crudeOf(crude[position], model)?.estimate ?? null);
  const how = model === "Cox" ? "by its own curve" : "crude";
  return `${label} ${percent(rate.estimate)} (${percentRange(rate)}; ${how} ${share}, ${failed})`;
}

/** The rate as it is: by the curve where eyes that are not known have their part in the model. */
function crudeOf(crude: GroupRate | undefined, model: StandardisedParts["model"]) {
  if (crude === undefined || crude.rate === null) return null;
  if (model === "Cox") return crude.curve;
  return crude.interval === null ? null : { ...crude.interval, estimate: crude.rate };
}

function differences({ standardised, reference }: StandardisedParts): Sentence {
  const texts = standardised.groups.flatMap(({ label, difference }) => {
    if (difference === null) return [];
    const p = difference.p === null ? "" : `; Wald test, ${pValue(difference.p)}`;
    return [
      `${label} less ${reference} ${pointsText(difference.estimate)} percentage points ` +
        `(${pointsRange(difference)}${p})`,
    ];
  });
  return texts.length === 0 ? [] : [` Standardised difference: ${texts.join("; ")}.`];
}

/** One row a group: its eyes, the crude and the standardised rate, and the difference. */
export function standardisedTable(parts: StandardisedParts, picks: PickBook): AnswerTable {
  const { record, data, grouping, standardised, reference, hasFailed, crude, model } = parts;
  const method = standardised.groups[0]?.rate.method ?? "";
  // Resampling gives limits and no test.
  const hasTest = standardised.groups.some(({ difference }) => (difference?.p ?? null) !== null);
  return {
    columns: [
      { label: grouping.label ?? "", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "failed", kind: "number" },
      {
        label:
          model === "Cox"
            ? "own curve (95%)"
            : `crude rate (95% ${shareMethod(record, data.eyes)})`,
        kind: "estimate",
      },
      { label: `standardised rate (95% ${method})`, kind: "estimate" },
      { label: `standardised less ${reference}, points (95%)`, kind: "estimate" },
      ...(hasTest ? [{ label: "p (Wald)", kind: "number" as const }] : []),
    ],
    rows: standardised.groups.map(({ label, eyes, rate, difference }, position) => {
      const failed = eyes.filter(hasFailed);
      const asItIs = crudeOf(crude[position], model);
      return [
        { text: label, value: label },
        picks.cell(`g${position}`, `${label}, in the model`, eyes),
        picks.cell(`g${position}:failed`, `${label}, failed`, failed),
        estimateCell(asItIs?.estimate ?? null, asItIs),
        estimateCell(rate.estimate, rate),
        difference === null ? { text: "reference", value: null } : differenceCell(difference),
        ...(hasTest ? [difference === null ? noEstimate : pCell(difference.p)] : []),
      ];
    }),
  };
}

/** The standardised rates as they are drawn, under the picks of the table. */
export function drawnStandardised({
  grouping,
  standardised,
  hasFailed,
}: StandardisedParts): RateIntervals {
  return {
    ...splitOf(grouping),
    how: "standardised",
    tone: "failed",
    counted: "failed",
    rows: standardised.groups.map(({ label, eyes, rate }, position) => {
      const failed = eyes.filter(hasFailed).length;
      return {
        label,
        events: failed,
        total: eyes.length,
        rate: rate.estimate,
        lower: rate.lower,
        upper: rate.upper,
        ...(failed === 0 ? {} : { pick: `g${position}:failed` }),
      };
    }),
  };
}

export function standardisedFigures(parts: StandardisedParts): FigureRecord {
  const { data, standardised, reference, hasFailed, seed } = parts;
  const others = standardised.groups.filter(({ difference }) => difference !== null);
  const only = others.length === 1 ? others[0]?.difference : undefined;
  return {
    eyes: data.eyes.length,
    eyes_without_terms: silentCount(data),
    failed: standardised.failures,
    headline: `${standardised.failures} of ${data.eyes.length}`,
    against: reference,
    model: parts.model,
    proportional_hazards_p: standardised.proportional,
    columns: standardised.columns,
    interval: standardised.groups[0]?.rate.method ?? null,
    seed: seed ?? null,
    ...(only === undefined ? {} : effectFigures("difference", only)),
    ...(only === undefined ? {} : { p: only?.p ?? null }),
    groups: standardised.groups.map(({ label, eyes, rate, difference }) => ({
      group: label,
      eyes: eyes.length,
      failed: eyes.filter(hasFailed).length,
      ...effectFigures("rate", rate),
      ...effectFigures("difference", difference),
      p: difference?.p ?? null,
    })),
  };
}
