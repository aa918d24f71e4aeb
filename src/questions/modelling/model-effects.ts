import type { EffectInterval, EffectIntervals } from "../../charts/effect-intervals.ts";
import { ratioText } from "../../charts/effect-intervals.ts";
import type { Interval } from "../../statistics/interval.ts";
import type { AnswerCell, AnswerColumn, AnswerTable, FigureRecord } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { isComparingPeople } from "../answering/cautions.ts";
import {
  effectFigures,
  intervalsName,
  pCell,
  ratioCell,
  ratioRange,
} from "../answering/effect-cells.ts";
import { noEstimate } from "../answering/estimate-cell.ts";
import { counted, listed } from "../answering/wording.ts";
import type { ModelData } from "./model-data.ts";
import type { ModelTerm, TermLevel } from "./model-term.ts";

/** What a fitted model says of each of its columns, in the order of `ModelData.columns`. */
export interface ModelEffect {
  /** A hazard or an odds ratio with its limits. */
  readonly ratio: Interval & { readonly estimate: number };
  readonly p: number;
}

/** A model with its effects, and the words that its sentence, table and chart share. */
export interface FittedEffects {
  readonly data: ModelData;
  readonly effects: readonly ModelEffect[];
  /** Whether each eye of the record failed. */
  readonly hasFailed: (eye: number) => boolean;
  /** "hazard ratio". */
  readonly measure: string;
  /** How p was had: "Wald", "profile likelihood". */
  readonly test: string;
  /** A last column of the table, by level. */
  readonly beside?: { readonly label: string; readonly cell: (position: number) => AnswerCell };
}

interface EffectRow {
  readonly term: ModelTerm;
  readonly text: string;
  readonly eyes: readonly number[];
  /** -1 for the reference of a term. */
  readonly position: number;
}

function rowsOf({ terms, columns }: ModelData): EffectRow[] {
  return terms.flatMap((term) => {
    const { reference } = term;
    const first =
      reference === undefined
        ? []
        : [{ term, text: reference.text, eyes: reference.eyes, position: -1 }];
    const others = term.levels.map((level: TermLevel) => ({
      term,
      text: level.text,
      eyes: level.eyes,
      position: columns.indexOf(level),
    }));
    return [...first, ...others];
  });
}

/** A row a level, the reference of each term first; counts lead to their eyes. */
export function effectsTable(fitted: FittedEffects, picks: PickBook): AnswerTable {
  const { data, effects, hasFailed, measure, test, beside } = fitted;
  const columns: AnswerColumn[] = [
    { label: "term", kind: "text" },
    { label: "level", kind: "text" },
    { label: "eyes", kind: "number" },
    { label: "failed", kind: "number" },
    { label: `${measure} (95% ${effects[0]?.ratio.method ?? ""})`, kind: "estimate" },
    { label: `p (${test})`, kind: "number" },
    ...(beside === undefined ? [] : [{ label: beside.label, kind: "number" as const }]),
  ];
  const rows = rowsOf(data).map((row, at): AnswerCell[] => {
    const { term, text, eyes, position } = row;
    const effect = effects[position];
    const title = `${term.label}: ${text}`;
    return [
      { text: term.label, value: term.label },
      { text, value: text },
      picks.cell(`m${at}`, title, eyes),
      picks.cell(`m${at}:failed`, `${title}, failed`, eyes.filter(hasFailed)),
      effect === undefined ? { text: "reference", value: null } : ratioCell(effect.ratio),
      effect === undefined ? noEstimate : pCell(effect.p),
      ...(beside === undefined ? [] : [effect === undefined ? noEstimate : beside.cell(position)]),
    ];
  });
  return { columns, rows };
}

/** The ratios as they are drawn, under the same picks as the table. */
export function drawnEffects({
  data,
  effects,
  hasFailed,
  measure,
}: FittedEffects): EffectIntervals {
  return {
    scale: "ratio",
    measure,
    counted: "failed",
    sides: { below: "fewer failures", above: "more failures" },
    rows: rowsOf(data).map(({ term, text, eyes, position }, at): EffectInterval => {
      const effect = effects[position];
      const failed = eyes.filter(hasFailed).length;
      return {
        label: `${term.label}: ${text}`,
        count: `${failed} of ${eyes.length}`,
        estimate: effect?.ratio.estimate ?? null,
        lower: effect?.ratio.lower ?? null,
        upper: effect?.ratio.upper ?? null,
        ...(effect === undefined ? { note: "reference" } : {}),
        ...(failed === 0 ? {} : { pick: `m${at}:failed` }),
      };
    }),
  };
}

/** More ratios than this are left to the table. */
const mostInWords = 6;

/** "hazard ratio (95% Wald intervals) of PVR grade B against none 2.07 (1.20 to 3.60); …". */
export function effectWords({ data, effects, measure }: FittedEffects): string {
  const told = rowsOf(data).filter(
    ({ term, position }) => position >= 0 && !isComparingPeople(term.names),
  );
  if (told.length === 0 || told.length > mostInWords) {
    return effects.length === 1
      ? `its ${measure} stands in the table`
      : `the ${measure}s of its ${effects.length} columns stand in the table`;
  }
  const method = effects[0]?.ratio.method ?? "";
  const texts = told.map(({ term, text, position }) => {
    const effect = effects[position];
    const value =
      effect === undefined
        ? ""
        : `${ratioText(effect.ratio.estimate)} (${ratioRange(effect.ratio)})`;
    return `${levelWords(term, text)} ${value}`;
  });
  return `${measure} (${intervalsName(method, told.length)}) ${texts.join("; ")}`;
}

function levelWords(term: ModelTerm, text: string): string {
  if (term.kind === "amount") return `of ${term.label} (${text})`;
  if (term.reference === undefined) return `of ${term.label} ${text}`;
  if (term.column.kind === "truth") return `of ${term.label}`;
  return `of ${term.label} ${text} against ${term.reference.text}`;
}

export function effectsFigures({ data, effects, hasFailed }: FittedEffects): FigureRecord[] {
  return rowsOf(data).map(({ term, text, eyes, position }) => {
    const effect = effects[position];
    return {
      term: term.label,
      level: text,
      eyes: eyes.length,
      failed: eyes.filter(hasFailed).length,
      ...effectFigures("ratio", effect?.ratio ?? null),
      interval: effect?.ratio.method ?? null,
      p: effect?.p ?? null,
    };
  });
}

/** " 12 eyes are left out: age not recorded (9) and PVR grade not recorded (3)." */
export function silentWords(data: ModelData): string {
  const { silent } = data;
  const all = silentCount(data);
  if (all === 0) return "";
  const reasons = silent.map(({ reason, eyes }) =>
    silent.length === 1 ? reason : `${reason} (${eyes.length})`,
  );
  return ` ${counted(all, "eye is", "eyes are")} left out: ${listed(reasons)}.`;
}

/** Eyes left out because a term is not recorded. */
export function silentCount({ silent }: ModelData): number {
  return silent.reduce((sum, { eyes }) => sum + eyes.length, 0);
}

/** "age, technique and PVR grade". */
export function termNames({ terms }: ModelData): string {
  return listed(terms.map(({ label }) => label));
}
