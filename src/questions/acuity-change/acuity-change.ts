import { defaultLowVisionTable, lowVisionTables } from "../../cases/acuity.ts";
import type { AcuityScatter, ScatterPoint } from "../../charts/acuity-scatter.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import { type AcuityPair, acuityPairs } from "../../outcomes/acuity-pairs.ts";
import type { Caution, LeftOut } from "../answer.ts";
import { PickBook } from "../answering/answered-eyes.ts";
import {
  clusteredIntervals,
  comparingPeople,
  manyLeftOut,
  pairedEyes,
  techniquesChosen,
} from "../answering/cautions.ts";
import { groupEyes } from "../answering/grouping.ts";
import { leftOutEyes } from "../answering/left-out-eyes.ts";
import { pickRecordAlso } from "../answering/pick-record-also.ts";
import {
  byParameter,
  eyesGiven,
  eyesParameter,
  question,
  textGiven,
  type Worked,
} from "../question.ts";
import { fewPairs, lowVisionByTable } from "./acuity-cautions.ts";
import {
  type AcuityParts,
  acuityGroup,
  changeText,
  logMarText,
  lowVisionCounts,
  seenLow,
} from "./acuity-parts.ts";
import { acuityBrief, acuitySentence } from "./acuity-sentence.ts";
import { acuityFigures, acuityTable } from "./acuity-table.ts";

/**
 * What was gained? logMAR before the primary repair and last recorded after it, paired by eye:
 * medians with quartiles, three lines (0.3 logMAR, 15 letters) gained or lost, and a scatter with
 * the line of no change. Counting fingers, hand movements and light perception are put into
 * numbers by a published table whose name stands beside every mean.
 */
export const acuityChange = question(
  {
    name: "acuity_change",
    meaning: "acuity before and after, paired: medians, gained and lost, a scatter",
    asks: "What was gained?",
    example: "acuity_change(eyes, by: macula)",
    parameters: [
      eyesParameter,
      byParameter,
      {
        name: "table",
        meaning: "the published table that gives low vision its logMAR",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: lowVisionTables.map(({ name }) => name),
        whenLeftOut: `"${defaultLowVisionTable.name}"`,
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const grouped = groupEyes(record, given.rows.get("by"));
  if ("problems" in grouped) return grouped;
  const name = textGiven(given, "table", defaultLowVisionTable.name);
  const table = lowVisionTables.find((each) => each.name === name) ?? defaultLowVisionTable;
  const paired = acuityPairs(record, table);
  const everyone = { label: "all eyes", eyes: Array.from(record.time, (_, eye) => eye) };
  const { grouping } = grouped;
  return answer({
    record,
    grouping,
    table,
    paired,
    total: acuityGroup(record, everyone, paired),
    groups: grouping.groups.map((group) => acuityGroup(record, group, paired)),
  });
}

function answer(parts: AcuityParts): Worked {
  const { record, grouping, groups, total, paired } = parts;
  const picks = new PickBook();
  const rows = grouping.label === undefined ? [total] : [...groups, total];
  const answerTable = acuityTable(parts, rows, picks);
  const leftOut = leftOutEyes(record, paired.without, picks);
  return {
    answered: {
      answer: {
        question: "acuity_change",
        asks: "What was gained?",
        sentence: acuitySentence(parts),
        brief: acuityBrief(parts),
        table: answerTable,
        ...(total.pairs.length === 0
          ? {}
          : { chart: { draw: "acuity scatter", scatter: drawn(parts, picks) } }),
        cautions: cautionsOf(parts, leftOut),
        unit: "eyes",
        used: total.pairs.length,
        leftOut,
        figures: acuityFigures(parts),
      },
      picks: picks.picks,
      record: describedRecord(parts),
    },
  };
}

function cautionsOf(parts: AcuityParts, leftOut: readonly LeftOut[]): Caution[] {
  const { record, grouping, groups, total, table } = parts;
  const low = lowVisionCounts(total.pairs);
  return [
    ...fewPairs(groups.map(({ label, pairs }) => ({ label, pairs: pairs.length }))),
    ...lowVisionByTable(low.before + low.after, table.name),
    ...techniquesChosen(grouping.by),
    ...comparingPeople(grouping.by),
    ...manyLeftOut(leftOut, total.pairs.length),
    ...pairedEyes(record, clusteredIntervals),
  ];
}

/** Eyes of one group with the same two acuities are one point, as large as they are many. */
function drawn({ grouping, groups, table, total }: AcuityParts, picks: PickBook): AcuityScatter {
  const shown = groups.filter(({ pairs }) => pairs.length > 0);
  return {
    groups: shown.map(({ label, pairs }) => `${label} (${pairs.length})`),
    points: shown.flatMap(({ label, pairs }, group) =>
      together(pairs).map((same, position): ScatterPoint => {
        const [first] = same;
        const before = first?.before ?? 0;
        const after = first?.after ?? 0;
        const eyes = same.map(({ eye }) => eye);
        const title = `${label}, ${logMarText(before)} before and ${logMarText(after)} after`;
        const pick = picks.add(`p${group}:${position}`, title, eyes);
        return { before, after, group, eyes: same.length, ...(pick === undefined ? {} : { pick }) };
      }),
    ),
    table: table.name,
    lowVision: seenLow(total.pairs),
    split: grouping.label !== undefined,
  };
}

function together(pairs: readonly AcuityPair[]): AcuityPair[][] {
  const byPlace = new Map<string, AcuityPair[]>();
  for (const pair of pairs) {
    const place = `${pair.before}/${pair.after}`;
    const same = byPlace.get(place);
    if (same === undefined) byPlace.set(place, [pair]);
    else same.push(pair);
  }
  return [...byPlace.values()];
}

function describedRecord({ record, paired }: AcuityParts) {
  const byEye = new Map(paired.pairs.map((pair) => [pair.eye, pair]));
  return pickRecordAlso(record, {
    headings: ["logMAR before", "logMAR after", "change"],
    texts: (eye) => {
      const pair = byEye.get(eye);
      if (pair === undefined) return ["–", "–", "–"];
      const said = (logMar: number, low: string | null): string =>
        low === null ? logMarText(logMar) : `${low} (${logMarText(logMar)})`;
      return [
        said(pair.before, pair.lowBefore),
        said(pair.after, pair.lowAfter),
        changeText(pair.change),
      ];
    },
  });
}
