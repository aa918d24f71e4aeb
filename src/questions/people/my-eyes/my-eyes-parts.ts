import type { SectionedRates } from "../../../charts/sectioned-rates.ts";
import type { FigureRecord } from "../../answer.ts";
import { effectFigures } from "../../answering/effect-cells.ts";
import type { Expectation } from "../expectation.ts";
import type { JudgedEyes } from "../judged-eyes.ts";
import type { ownResult } from "../observed-expected/person-result.ts";
import { type OnePerson, withoutPerson } from "../one-person.ts";
import type { ComparedStratum, SideOfStratum } from "./compared-strata.ts";
import type { EyesToReview } from "./eyes-to-review.ts";

/** What the sentence, the table and the chart of one's own eyes are all made from. */
export interface OwnParts {
  readonly person: OnePerson;
  /** The person's own eyes. */
  readonly judged: JudgedEyes;
  readonly strata: readonly ComparedStratum[];
  readonly review: readonly EyesToReview[];
  readonly result: ReturnType<typeof ownResult>;
  readonly expectation: Expectation;
  readonly standard: number;
}

/** Own and others' rates under a heading for each kind of eye. */
export function drawnStrata({ strata, person }: OwnParts): SectionedRates {
  return {
    counted: "failed",
    tone: "failed",
    reach: "if none or all of the eyes not known had failed",
    sections: strata.map(({ section, label, own, others }, i) => ({
      label: section === "" ? label : `${section}: ${label}`,
      rows: [
        { ...drawnSide(person.code, own), chosen: true, ...pickOf(own, `s${i}:failed`) },
        ...(others === undefined ? [] : [drawnSide(withoutPerson(person), others)]),
      ],
    })),
  };
}

function drawnSide(label: string, { judged, failedEyes, rate, interval }: SideOfStratum) {
  const all = judged.known.length + judged.unknown.length;
  const failed = failedEyes.length;
  return {
    label,
    events: failed,
    total: judged.known.length,
    rate,
    lower: interval?.lower ?? null,
    upper: interval?.upper ?? null,
    lowest: all === 0 ? null : failed / all,
    highest: all === 0 ? null : (failed + judged.unknown.length) / all,
  };
}

function pickOf({ failedEyes }: SideOfStratum, pick: string) {
  return failedEyes.length === 0 ? {} : { pick };
}

export function ownFigures(parts: OwnParts): FigureRecord {
  const { person, judged, strata, review, result } = parts;
  const [all] = strata;
  const failed = result.failedEyes.length;
  const side = (of: SideOfStratum | undefined) =>
    of === undefined
      ? null
      : { eyes: of.judged.known.length, failed: of.failedEyes.length, rate: of.rate };
  return {
    surgeon: person.code,
    eyes: judged.known.length,
    failed,
    not_known: judged.unknown.length,
    too_recent: judged.tooRecent.length,
    headline: `${failed} of ${judged.known.length}`,
    headline_rate: result.rate,
    lower: result.interval?.lower ?? null,
    upper: result.interval?.upper ?? null,
    unit_rate: all?.others?.rate ?? null,
    ...effectFigures("difference", all?.difference ?? null),
    expected: result.ratio?.expected ?? null,
    ...effectFigures("ratio", result.ratio),
    p: result.ratio?.p ?? null,
    groups: strata.map(({ section, label, own, others }) => ({
      section,
      group: label,
      own: side(own),
      unit: side(others),
    })),
    review: review.map(({ why, eyes }) => ({ why, eyes: eyes.length })),
  };
}
