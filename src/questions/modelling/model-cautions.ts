import type { Caution } from "../answer.ts";
import { counted, figure, listed, pValue } from "../answering/wording.ts";
import type { ModelData } from "./model-data.ts";

/** Hazards that are not proportional: one ratio for all times hides that they change. */
export function hazardsNotProportional(p: number | null, what: string): Caution[] {
  if (p === null || p >= 0.05) return [];
  return [
    {
      code: "hazards-not-proportional",
      text: `${what} changes with time (Grambsch–Therneau test, ${pValue(p)}): one ratio for all times is an average that may hold at none; look at the curves.`,
    },
  ];
}

/** A model with fewer than ten failures a column. */
export function fewFailuresPerColumn(failures: number, columns: number): Caution[] {
  if (failures >= 10 * columns) return [];
  const each = failures / columns;
  return [
    {
      code: "few-failures-per-column",
      text: `The model has ${figure(each)} failures for each of ${counted(columns, "column")} (10 are better): its ratios are unsteady and would look better here than on other eyes.`,
    },
  ];
}

/** A model says what goes together, not what would change. */
export function modelIsNotCause(): Caution[] {
  return [
    {
      code: "not-a-cause",
      text: "A model of what was recorded shows what goes together; it does not show what would happen if an eye were operated on in another way.",
    },
  ];
}

/** A model judged on the eyes that it was fitted to. */
export function judgedOnOwnEyes(): Caution[] {
  return [
    {
      code: "judged-on-own-eyes",
      text: "How well the model tells eyes apart is judged on the eyes it was fitted to: on others it will do worse. It is not for telling a patient their risk.",
    },
  ];
}

/** Predicted and observed failures that do not agree over groups of risk. */
export function poorlyCalibrated(p: number | null): Caution[] {
  if (p === null || p >= 0.05) return [];
  return [
    {
      code: "poorly-calibrated",
      text: `Predicted and observed failures do not agree over groups of predicted risk (Hosmer–Lemeshow test, ${pValue(p)}): look at the calibration.`,
    },
  ];
}

/** What standardising allows for, and what it does not. */
export function standardisedOnRecord(terms: string): Caution[] {
  return [
    {
      code: "standardised-on-record",
      text: `The rates allow for ${terms} as recorded and for nothing else: whatever else the choice was made by is still in them.`,
    },
  ];
}

/** Levels of a term that one of the groups has no eyes of. */
export function groupsWithoutOverlap(lacking: readonly string[]): Caution[] {
  if (lacking.length === 0) return [];
  const some = lacking.slice(0, 4);
  return [
    {
      code: "groups-without-overlap",
      text: `There is no eye of ${listed(some)}${lacking.length > some.length ? ", and of others" : ""}: there the rates rest on the model alone.`,
    },
  ];
}

/** Groups too small to be in a model. */
export function smallGroupsAside(small: readonly string[]): Caution[] {
  if (small.length === 0) return [];
  return [
    {
      code: "small-groups-aside",
      text: `Set aside, with fewer than 10 eyes: ${listed(small)}.`,
    },
  ];
}

/** Levels of a term with fewer than ten eyes: their ratios are nearly free. */
export function fewEyesInLevels({ terms }: ModelData): Caution[] {
  const few = terms.flatMap((term) => {
    const { label, kind, reference, levels } = term;
    const all =
      kind === "amount" ? [] : [...(reference === undefined ? [] : [reference]), ...levels];
    return all
      .filter(({ eyes }) => eyes.length < 10)
      .map(({ text, eyes }) => `${label}: ${text} (${eyes.length})`);
  });
  if (few.length === 0) return [];
  const some = few.slice(0, 4);
  return [
    {
      code: "few-eyes-in-level",
      text: `Fewer than 10 eyes in ${listed(some)}${few.length > some.length ? " and others" : ""}: read the interval, not the ratio.`,
    },
  ];
}

/** Columns that few patients carry, where errors are judged by patients. */
export function fewPatientsBehind(names: readonly string[]): Caution[] {
  if (names.length === 0) return [];
  return [
    {
      code: "few-patients-behind-term",
      text: `Fewer than 10 patients tell of ${listed(names)}: an error clustered by patient runs small there, so the larger of it and the model's own is shown throughout.`,
    },
  ];
}
