import { formatWorking } from "../../formula/format.ts";
import {
  definitionNamed,
  definitionsOf,
  type NotebookDocument,
} from "../../notebook/notebook-document.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";

/** A cell that is worked out otherwise in one notebook than in the other, or stands in one only. */
export interface WorkingCompared {
  readonly name: string;
  /** As they would be formatted; absent where the notebook has no such cell. */
  readonly before?: string;
  readonly after?: string;
}

/** Differences of layout are none; in the order of the later notebook, then what it has no more. */
export function compareWorkings(
  before: NotebookDocument,
  after: NotebookDocument,
): WorkingCompared[] {
  const names = [...definitionsOf(after), ...definitionsOf(before)].map(({ name }) => name);
  return [...new Set(names)].flatMap((name) => {
    const [earlier, later] = [before, after].map((document) => formatted(document, name));
    if (earlier === later) return [];
    return [
      {
        name,
        ...(earlier === undefined ? {} : { before: earlier }),
        ...(later === undefined ? {} : { after: later }),
      },
    ];
  });
}

function formatted(document: NotebookDocument, name: string): string | undefined {
  const definition = definitionNamed(document, name);
  return definition === undefined ? undefined : formatWorking(definition.working);
}

/** Whether the notebooks read files alike: their headings, their codes and columns worked out. */
export function isReadAlike(before: NotebookDocument, after: NotebookDocument): boolean {
  const [earlier, later] = [before, after].map(({ front: { matching, computed } }) =>
    JSON.stringify({ matching, computed }, (_, value) =>
      value instanceof Map ? [...value] : value,
    ),
  );
  return earlier === later;
}

/** The cell and all cells that it is worked out from, in either notebook. */
export function cellsBehind(
  cell: string,
  sessions: readonly NotebookSession<never>[],
): ReadonlySet<string> {
  const found = new Set([cell]);
  for (const name of found) {
    for (const { document, sheet } of sessions) {
      if (definitionNamed(document, name) === undefined) continue;
      for (const feed of sheet.feeds(name).from) found.add(feed);
    }
  }
  return found;
}
