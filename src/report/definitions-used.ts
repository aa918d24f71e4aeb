import { type EyeRecord, isTimed } from "../outcomes/eye-record.ts";
import type { OutcomeRules } from "../outcomes/outcome-rules.ts";
import type { CellState } from "../recalculation/cell-state.ts";
import { html, type Markup } from "./markup.ts";

/** A cell of the sheet as it stands. */
interface NamedState {
  readonly name: string;
  readonly state: CellState;
}

/** How eyes were followed and what counted as a failure, for the cells that were made so. */
export interface DefinitionUsed {
  readonly cells: readonly string[];
  readonly failure: string;
  readonly oil: string;
  readonly undecided: string;
  /** "6 months"; "to the last visit" without one. */
  readonly followed: string;
}

export function definitionsUsed(cells: readonly NamedState[]): DefinitionUsed[] {
  const found = new Map<string, DefinitionUsed>();
  for (const { name, state } of cells) {
    const record = eyesOf(state);
    if (record?.rules === undefined) continue;
    const { failure, window } = record.rules;
    const oil = failure === "not attached without oil" ? oilIsFailure : record.rules.oil;
    const undecided = undecidedText(record, record.rules);
    const followed = window === undefined ? "to the last visit" : `for ${window.text}`;
    const key = [failure, oil, undecided, followed].join("|");
    const before = found.get(key)?.cells ?? [];
    found.set(key, {
      cells: [...before, name],
      failure,
      oil,
      undecided,
      followed,
    });
  }
  return [...found.values()];
}

function eyesOf(state: CellState): EyeRecord | undefined {
  if (state.status !== "current" || state.value.kind !== "thing") return undefined;
  return state.value.of === "eyes" ? (state.value.content as EyeRecord) : undefined;
}

const oilIsFailure = "in at the last visit counts as failed";

/** A state read at the last visit has no time for which an eye could be followed. */
function undecidedText(record: EyeRecord, { undecided }: OutcomeRules): string {
  const words = undecidedWords[undecided];
  return isTimed(record) ? words : words.replace(untilNotFailed, "not counted");
}

const failureMeans: ReadonlyMap<string, string> = new Map([
  ["redetachment", "the retina detached again, treated or not, or never lay flat"],
  [
    "reoperation",
    "any further operation for the detachment, or a retina that never lay flat; planned removal of oil is none",
  ],
  ["not attached without oil", "at the last visit detached, or attached only under oil"],
  ["detached at last visit", "detached at the last visit, after all operations"],
]);

/** What a definition of failure means, in plain words; empty for one that has none. */
export function failureMeaning(failure: string): string {
  return failureMeans.get(failure) ?? "";
}

const untilNotFailed = "followed as long as known not to have failed";

const undecidedWords: Readonly<Record<OutcomeRules["undecided"], string>> = {
  bounds: `${untilNotFailed}, and bounded both ways`,
  censored: untilNotFailed,
  failed: "counted as failed",
  attached: "counted as attached",
};

export function definitionsSection(definitions: readonly DefinitionUsed[]): Markup | undefined {
  if (definitions.length === 0) return undefined;
  return html`<section class="definitions"><h2 id="definitions">Definitions used</h2>
<table><thead><tr><th scope="col" class="text">for</th><th scope="col" class="text">failure</th>
<th scope="col" class="text">silicone oil</th><th scope="col" class="text">undecided eyes</th>
<th scope="col" class="text">followed</th></tr></thead><tbody>${definitions.map(
    ({ cells, failure, oil, undecided, followed }) =>
      html`<tr><th scope="row">${cells.join(", ")}</th>
<td class="text">${failure}: ${failureMeaning(failure)}</td><td class="text">${oil}</td>
<td class="text">${undecided}</td><td class="text">${followed}</td></tr>\n`,
  )}</tbody></table></section>`;
}
