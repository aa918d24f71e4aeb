import { writeCorrections } from "../../cases/corrections/write-corrections.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { Replies, Request } from "../protocol.ts";
import type { SavedCorrections } from "./change-cases.ts";
import { writtenValues } from "./correct-values.ts";
import { heldCases } from "./held-cases.ts";
import { correctionsName } from "./session-report.ts";
import { ShownRows } from "./shown-rows.ts";

/** Answers what the leaf of cases asks and that changes nothing; undefined for all else. */
export class CasesAnswers {
  readonly #session: NotebookSession<SettingChange>;
  readonly #rows: ShownRows;
  readonly #saved: SavedCorrections;

  constructor(session: NotebookSession<SettingChange>, saved: SavedCorrections) {
    this.#session = session;
    this.#rows = new ShownRows(session);
    this.#saved = saved;
  }

  answer(
    request: Request,
  ): Replies[Request["ask"]] | Promise<Replies["find in cases" | "range text"]> | undefined {
    switch (request.ask) {
      case "arranged rows":
        return this.#rows.rows(request.arrangement, request.from, request.count);
      case "find in cases":
        return this.#rows.find(request.wanted);
      case "range text":
        return this.#rows.text(request.range).then((text) => ({ text }));
      case "place of row":
        return this.#rows.placeOf(request.arrangement, request.at);
      case "written values":
        return { texts: writtenValues(this.#session, request.cells) };
      case "cases to keep":
        return heldCases(this.#session);
      case "save corrections":
        return this.#saveCorrections();
      default:
        return undefined;
    }
  }

  #saveCorrections(): Replies["save corrections"] {
    const { caseFile, laid } = this.#session;
    for (const correction of laid.corrections) this.#saved.add(correction);
    const name = correctionsName(caseFile?.name ?? "cases");
    return { name, text: writeCorrections(laid.corrections) };
  }
}
