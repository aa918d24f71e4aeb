import { definitionNamed } from "../../notebook/notebook-document.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import { isSame } from "../../recalculation/is-same.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { CellView, News } from "../protocol.ts";
import { type CellFacts, cellView } from "./cell-view.ts";

type Session = NotebookSession<SettingChange>;

/** Tells the page of cells, and only of those that have changed since it was told last. */
export class CellViews {
  readonly #session: Session;
  readonly #tell: (news: News) => void;
  #told = new Map<string, CellFacts>();

  constructor(session: Session, tell: (news: News) => void) {
    this.#session = session;
    this.#tell = tell;
  }

  /** Tells which cells are being worked out, before that begins. */
  tellStale(): void {
    const { sheet } = this.#session;
    const cells = sheet.names().filter((name) => sheet.state(name).status === "recalculating");
    if (cells.length > 0) this.#tell({ tell: "recalculating", cells });
  }

  /** Tells what the cells are worth now. */
  tellChanged(): void {
    const facts = this.#session.sheet.names().map((name) => factsOf(this.#session, name));
    const views: CellView[] = [];
    for (const fact of facts) {
      const before = this.#told.get(fact.name);
      if (before === undefined || !isSameCell(before, fact)) views.push(cellView(fact));
    }
    this.#told = new Map(facts.map((fact) => [fact.name, fact]));
    if (views.length > 0) this.#tell({ tell: "cells", views });
  }
}

function factsOf(session: Session, name: string): CellFacts {
  const { sheet, document } = session;
  return {
    name,
    working: definitionNamed(document, name)?.working ?? "",
    state: sheet.state(name),
    feeds: sheet.feeds(name),
    because: sheet.because(name),
    minuted: session.minuted(name),
  };
}

/** A state object is never changed in place, so that comparing it costs nothing. */
function isSameCell(one: CellFacts, other: CellFacts): boolean {
  const { state, ...rest } = one;
  const { state: otherState, ...otherRest } = other;
  return state === otherState && isSame(rest, otherRest);
}
