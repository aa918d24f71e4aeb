import type { CaseFile } from "../cases/open-file.ts";
import type { NotebookDocument } from "../notebook/notebook-document.ts";
import { readNotebook } from "../notebook/read-notebook.ts";
import { type LaidOver, nothingLaid } from "./laid-over.ts";
import type { GivenInputs } from "./sheet-feed.ts";

/** Everything that an act can change, as it is after one of them. */
export interface SessionState {
  readonly name: string;
  readonly document: NotebookDocument;
  readonly file: CaseFile | undefined;
  readonly laid: LaidOver;
  readonly given: GivenInputs;
}

/** No notebook and no cases. */
export function emptyState(): SessionState {
  const { notebook } = readNotebook("");
  return { name: "", document: notebook, file: undefined, laid: nothingLaid, given: new Map() };
}
