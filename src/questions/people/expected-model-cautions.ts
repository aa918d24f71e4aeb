import type { Caution } from "../answer.ts";
import { figure } from "../answering/wording.ts";

/** The logistic model that told the risks of one person's eyes. */
export interface ExpectedModel {
  /** Failures among the eyes it was fitted to, or successes where these are fewer. */
  readonly rarer: number;
  readonly columns: number;
  /** By Firth's penalised likelihood, its intercept refitted. */
  readonly isPenalised: boolean;
}

/**
 * Under this number of failures a column a model is unsteady (Peduzzi et al., Journal of Clinical
 * Epidemiology 1996;49:1373).
 */
export const enoughPerColumn = 10;

/**
 * What is expected from models that rest on few failures, or that maximum likelihood could not fit:
 * of several models the one with the fewest failures a column is told. `of` says whose eyes they are.
 */
export function expectedModelCautions(
  models: readonly (ExpectedModel | null | undefined)[],
  of = "the eyes of others",
): Caution[] {
  const fitted = models.flatMap((model) => (model == null || model.columns === 0 ? [] : [model]));
  const [poorest] = [...fitted].sort((a, b) => a.rarer / a.columns - b.rarer / b.columns);
  if (poorest === undefined) return [];
  return [...fewPerColumn(poorest, of), ...fellBack(fitted, of)];
}

function fewPerColumn({ rarer, columns }: ExpectedModel, of: string): Caution[] {
  if (rarer >= enoughPerColumn * columns) return [];
  const each = columns === 1 ? "its one column" : `each of ${columns} columns`;
  return [
    {
      code: "few-failures-per-column",
      text: `The model of ${of} has ${figure(rarer / columns)} failures for ${each} (${enoughPerColumn} are better): what it expects is unsteady.`,
    },
  ];
}

function fellBack(fitted: readonly ExpectedModel[], of: string): Caution[] {
  const penalised = fitted.filter(({ isPenalised }) => isPenalised).length;
  if (penalised === 0) return [];
  const all = fitted.length === 1 ? "The model" : "The models";
  const which = penalised === fitted.length ? all : `${penalised} of ${fitted.length} models`;
  const is = penalised === 1 ? "is" : "are";
  return [
    {
      code: "penalised-likelihood",
      text: `${which} of ${of} ${is} fitted by Firth's penalised likelihood, as failures are few or a factor separates them: it draws the effects of factors towards none, so that less is allowed for case mix.`,
    },
  ];
}
