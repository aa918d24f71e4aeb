import type { Correction } from "../../cases/corrections/correction.ts";
import type { CaseFile } from "../../cases/open-file.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import { isSame } from "../../recalculation/is-same.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { EarlierView } from "../cases-protocol.ts";

type Session = NotebookSession<SettingChange>;

/**
 * Corrections that lay over the cases before, when others were opened in their place. They are
 * offered and never laid by themselves: rows may be called the same in another file.
 */
export class EarlierCorrections {
  #of: CaseFile | undefined;
  #corrections: readonly Correction[] = [];

  /** Other cases are about to take the place of those that are open. */
  leave({ caseFile, laid }: Session): void {
    if (caseFile === undefined || laid.corrections.length === 0) return;
    this.#of = caseFile;
    this.#corrections = laid.corrections;
  }

  /** Those that do not lie over the cases, where these are others than before. */
  missingIn({ caseFile, laid }: Session): readonly Correction[] {
    if (caseFile === this.#of) return [];
    const isLaid = (one: Correction) => laid.corrections.some((other) => isSame(one, other));
    return this.#corrections.filter((correction) => !isLaid(correction));
  }

  /** They are laid, and offered no more. */
  forget(): void {
    this.#corrections = [];
  }

  view(session: Session): EarlierView | undefined {
    const count = this.missingIn(session).length;
    return count === 0 ? undefined : { file: this.#of?.name ?? "", count };
  }
}
