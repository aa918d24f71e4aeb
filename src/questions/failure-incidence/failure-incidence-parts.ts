import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { GrayTest } from "../../statistics/gray-test.ts";
import { incidenceAt } from "../../statistics/incidence-at.ts";
import { type SurvivalEstimate, survivalAt } from "../../statistics/survival-at.ts";
import type { FigureRecord, Sentence } from "../answer.ts";
import { failureWords, rulesClause } from "../answering/failure-words.ts";
import type { Grouping } from "../answering/grouping.ts";
import type { Landmark } from "../answering/landmarks.ts";
import { patientClusters } from "../answering/patient-clusters.ts";
import { othersInTable, toldGroups } from "../answering/told-groups.ts";
import { counted, listed, percent, percentRange, pValue } from "../answering/wording.ts";
import { type CompetingCauses, causeNotRecorded, death } from "./cause-of-eye.ts";
import type { GroupIncidence } from "./incidence-of-group.ts";

/** What the sentence, the table and the chart of incidences are all made from. */
export interface IncidenceParts {
  readonly record: EyeRecord;
  readonly grouping: Grouping;
  readonly causes: CompetingCauses;
  readonly groups: readonly GroupIncidence[];
  readonly total: GroupIncidence;
  /** In the record's unit of time. */
  readonly until: number;
  readonly landmarks: readonly Landmark[];
  readonly variance: "delta" | "Gray";
  /** By cause: that its incidence is the same in all groups; undefined where not split. */
  readonly tests: readonly GrayTest[] | undefined;
}

/** Number of eyes that a cause (from 0) ended. */
export function endedBy(group: GroupIncidence, cause: number): readonly number[] {
  return group.endedAt[cause]?.flat() ?? [];
}

/** The method, as it stands in the sentence and over the table. */
export function methodOf({ record, total, variance }: IncidenceParts): string {
  if (variance === "Gray") return "95% log-log intervals, Gray's variance";
  const isClustered = patientClusters(record, total.eyes) !== undefined;
  return isClustered
    ? "95% patient-clustered log-log intervals"
    : "95% log-log intervals, delta-method variance";
}

/** Each cause's incidence at the last landmark, or each group's, with Gray's test. */
export function incidenceSentence(parts: IncidenceParts): Sentence {
  if (parts.total.eyes.length === 0) return ["No eyes to follow."];
  return [...whatCame(parts), ...rulesClause(parts.record)];
}

/** "At 12 months, of 517 eyes: PVR 5.7% (27 eyes), missed break 3.8% (19), …": the leading three. */
export function incidenceBrief(parts: IncidenceParts): Sentence {
  const { total, causes, grouping, tests } = parts;
  const last = lastLandmark(parts);
  const failed = total.endedAt.slice(0, causes.failures).flat(2).length;
  if (last === undefined || failed === 0) return [];
  const eyes = counted(total.eyes.length, "eye");
  if (grouping.label !== undefined) {
    const test = tests?.[0];
    const p =
      test === undefined || test.degreesOfFreedom === 0
        ? ""
        : `; Gray's test by ${grouping.label}, ${pValue(test.pValue)}`;
    return [`${failed} of ${eyes} failed${p}.`];
  }
  const told = causes.labels.slice(0, Math.min(3, causes.failures)).map((label, cause) => {
    const at = incidenceAt(total.curves, cause + 1, last.time);
    return `${label} ${percent(at?.estimate ?? null)} (${endedBy(total, cause).length})`;
  });
  return [`At ${last.text}, of ${eyes}, failed of ${told.join(", ")}.`];
}

function whatCame(parts: IncidenceParts): Sentence {
  const failed = parts.causes.labels.flatMap((label, cause) =>
    label === death ? [] : endedBy(parts.total, cause),
  );
  if (failed.length === 0) {
    return [
      `No failure is recorded among ${counted(parts.total.eyes.length, "eye")}.`,
      ...deathClause(parts),
    ];
  }
  const last = lastLandmark(parts);
  if (last === undefined) return countsOnly(parts, failed.length);
  return parts.grouping.label === undefined
    ? [...causeClause(parts, last), ...deathClause(parts)]
    : [...groupClause(parts, last), ...deathClause(parts), ...testClause(parts)];
}

/** The last landmark at which anything can be said of all eyes. */
function lastLandmark({ total, landmarks }: IncidenceParts): Landmark | undefined {
  return landmarks.findLast(({ time }) => incidenceAt(total.curves, 1, time) !== null);
}

function countsOnly({ total, causes }: IncidenceParts, failed: number): Sentence {
  const counts = causes.labels.map((label, cause) => `${label} ${endedBy(total, cause).length}`);
  return [
    `Of ${counted(total.eyes.length, "eye")} followed, `,
    { text: `${failed} failed`, role: "failed" },
    `: ${listed(counts)}; no landmark is reached by the curves.`,
  ];
}

function opening({ record }: IncidenceParts, { text }: Landmark): string {
  const { noun } = failureWords(record);
  return `At ${text} the cumulative incidence${noun === "failure" ? "" : ` of failure (${noun})`}`;
}

function causeClause(parts: IncidenceParts, last: Landmark): Sentence {
  const { causes, total } = parts;
  const each = causes.labels
    .map((label, cause) => ({ label, cause }))
    .filter(({ label }) => label !== death)
    .map(({ label, cause }) => {
      const at = incidenceAt(total.curves, cause + 1, last.time);
      return `${label} ${percent(at?.estimate ?? null)}${rangeOf(at)}, ${eyesText(endedBy(total, cause))}`;
    });
  return [
    `${opening(parts, last)} by cause is: ${each.join("; ")} (Aalen–Johansen among ` +
      `${counted(total.eyes.length, "eye")}, ${methodOf(parts)}).`,
  ];
}

function eyesText(eyes: readonly number[]): string {
  return counted(eyes.length, "eye");
}

function rangeOf(at: SurvivalEstimate | null): string {
  return at === null ? "" : ` (${percentRange(at)})`;
}

function groupClause(parts: IncidenceParts, last: Landmark): Sentence {
  const { groups, causes, grouping } = parts;
  const told = toldGroups(grouping, groups, ({ eyes }) => eyes.length);
  const [first = "failure"] = causes.labels;
  const what = first === "failure" ? "" : ` from ${first}`;
  if (told.length === 0)
    return [`${opening(parts, last)}${what} by ${grouping.label} stands in the table.`];
  const each = told.map((group) => {
    const at = incidenceAt(group.curves, 1, last.time);
    const ended = endedBy(group, 0);
    const count = `${ended.length === 0 ? "none" : ended.length} of ${counted(group.eyes.length, "eye")}`;
    return at === null
      ? `${group.label} not followed so long (${count})`
      : `${group.label} ${percent(at.estimate)}${rangeOf(at)}, ${count}`;
  });
  return [
    `${opening(parts, last)}${what} by ${grouping.label} is: ${each.join("; ")} ` +
      `(Aalen–Johansen, ${methodOf(parts)})` +
      `${othersInTable(told.length, groups.length)}.`,
  ];
}

/** What competes: an eye that ended in another way can no longer fail of this cause. */
function deathClause({ total, causes }: IncidenceParts): Sentence {
  const position = causes.labels.indexOf(death);
  if (position < 0) return [];
  const died = endedBy(total, position).length;
  return [
    ` Death ended the follow-up of `,
    { text: counted(died, "eye"), pick: `all:${position}` },
    ` without failure and competes with it.`,
  ];
}

function testClause({ tests, causes }: IncidenceParts): Sentence {
  const [test] = tests ?? [];
  if (test === undefined) return [];
  if (test.degreesOfFreedom === 0) return [" Only one group has eyes at risk: nothing to test."];
  return [
    ` Gray's test of equal incidence${causes.labels[0] === "failure" ? "" : ` of ${causes.labels[0]}`}: ` +
      `chi-square ${test.chiSquare.toFixed(2)} on ${counted(test.degreesOfFreedom, "degree")} of freedom, ${pValue(test.pValue)}.`,
  ];
}

/** All by name: causes of all eyes, then group by group. */
export function incidenceFigures(parts: IncidenceParts): FigureRecord {
  const { grouping, groups, total, tests, causes } = parts;
  const failed = total.endedAt.slice(0, causes.failures).flat(2).length;
  return {
    eyes: total.eyes.length,
    failed,
    headline: `${failed} of ${total.eyes.length}`,
    variance: parts.variance,
    interval: methodOf(parts),
    not_recorded: silentCount(parts),
    causes: causeFigures(total, parts),
    ...(tests === undefined
      ? {}
      : {
          gray_chi_square: tests[0]?.chiSquare ?? null,
          gray_df: tests[0]?.degreesOfFreedom ?? null,
          gray_p: tests[0]?.pValue ?? null,
        }),
    ...(grouping.label === undefined
      ? {}
      : {
          groups: groups.map((group) => ({
            group: group.label,
            eyes: group.eyes.length,
            causes: causeFigures(group, parts),
          })),
        }),
  };
}

/** Failures whose cause is not recorded, where causes are told apart. */
export function silentCount({ causes, total }: IncidenceParts): number {
  const position = causes.labels.indexOf(causeNotRecorded);
  return position < 0 ? 0 : endedBy(total, position).length;
}

function causeFigures(group: GroupIncidence, { causes, landmarks, tests }: IncidenceParts) {
  return [
    ...causes.labels.map((label, cause) => ({
      cause: label,
      eyes: endedBy(group, cause).length,
      gray_p: tests?.[cause]?.pValue ?? null,
      landmarks: landmarks.map(({ text, time }) => ({
        at: text,
        ...estimateFigures(incidenceAt(group.curves, cause + 1, time)),
      })),
    })),
    {
      cause: "none of these",
      eyes: group.eyes.length - causes.labels.reduce((n, _, k) => n + endedBy(group, k).length, 0),
      gray_p: null,
      landmarks: landmarks.map(({ text, time }) => ({
        at: text,
        ...estimateFigures(survivalAt(group.free, time)),
      })),
    },
  ];
}

function estimateFigures(at: SurvivalEstimate | null) {
  return {
    incidence: at?.estimate ?? null,
    standard_error: at?.standardError ?? null,
    lower: at?.lower ?? null,
    upper: at?.upper ?? null,
    at_risk: at?.atRisk ?? 0,
  };
}
