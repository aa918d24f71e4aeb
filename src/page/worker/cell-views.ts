import type { CaseReading } from "../../cases/case-reading.ts";
import { definitionNamed } from "../../notebook/notebook-document.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import { isSame } from "../../recalculation/is-same.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { CellView, DatePreset, News } from "../protocol.ts";
import { type CellFacts, cellView } from "./cell-view.ts";
import { datePresets, operatedBetween } from "./date-presets.ts";

type Session = NotebookSession<SettingChange>;

/** Tells the page of cells, and only of those that have changed since it was told last. */
export class CellViews {
  readonly #session: Session;
  readonly #tell: (news: News) => void;
  readonly #today: number;
  #told = new Map<string, CellFacts>();
  #presets: { readonly of: CaseReading | undefined; readonly all: readonly DatePreset[] };

  /** `today`: whole days since 1970-01-01. */
  constructor(session: Session, tell: (news: News) => void, today: number) {
    this.#session = session;
    this.#tell = tell;
    this.#today = today;
    this.#presets = { of: undefined, all: [] };
  }

  /** Tells which cells are being worked out, before that begins. */
  tellStale(): void {
    const { sheet } = this.#session;
    const cells = sheet.names().filter((name) => sheet.state(name).status === "recalculating");
    if (cells.length > 0) this.#tell({ tell: "recalculating", cells });
  }

  /**
   * Tells what the cells are worth now, and whether there was anything to tell; those not worked
   * out yet keep the answer they show.
   */
  tellChanged(): boolean {
    const presets = this.#presetsNow();
    const facts = this.#session.sheet.names().map((name) => factsOf(this.#session, name, presets));
    const views: CellView[] = [];
    const told = new Map<string, CellFacts>();
    for (const fact of facts) {
      const before = this.#told.get(fact.name);
      const isOld = before !== undefined && fact.state.status === "recalculating";
      const isTold = isOld || (before !== undefined && isSameCell(before, fact));
      if (!isTold) views.push(cellView(fact));
      told.set(fact.name, isOld ? before : fact);
    }
    this.#told = told;
    if (views.length > 0) this.#tell({ tell: "cells", views });
    return views.length > 0;
  }

  /** Worked out once for each reading of the cases. */
  #presetsNow(): readonly DatePreset[] {
    const { caseReading } = this.#session;
    if (caseReading !== this.#presets.of) {
      const all = datePresets(operatedBetween(caseReading), this.#today);
      this.#presets = { of: caseReading, all };
    }
    return this.#presets.all;
  }
}

function factsOf(session: Session, name: string, presets: readonly DatePreset[]): CellFacts {
  const { sheet, document } = session;
  const definition = definitionNamed(document, name);
  return {
    name,
    working: definition?.working ?? "",
    columns: definition?.columns,
    presets,
    state: sheet.state(name),
    feeds: sheet.feeds(name),
    because: sheet.because(name),
    minuted: session.minuted(name),
  };
}

/** Neither states nor lists of presets are changed in place: comparing them costs nothing. */
function isSameCell(one: CellFacts, other: CellFacts): boolean {
  const { state, presets, ...rest } = one;
  const { state: otherState, presets: otherPresets, ...otherRest } = other;
  return state === otherState && presets === otherPresets && isSame(rest, otherRest);
}
