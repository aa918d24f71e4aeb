import type { Arrangement, RowAt, ValueAt, ValueCorrected } from "../cases-protocol.ts";
import type { ArrangedCount } from "./case-pages.ts";

/** What the reader does on the leaf of cases, as it rises to the leaf. */
export type LeafAct =
  | { readonly does: "arrange"; readonly arrangement: Arrangement }
  | { readonly does: "hide"; readonly columns: ReadonlySet<string> }
  /** Names of columns, in the order in which they are to stand. */
  | { readonly does: "order"; readonly columns: readonly string[] }
  | { readonly does: "count"; readonly counted: ArrangedCount | undefined }
  | { readonly does: "find"; readonly text: string }
  /** Values to correct; those with a text are to be read as that. */
  | { readonly does: "correct"; readonly values: readonly (ValueAt | ValueCorrected)[] }
  | { readonly does: "go to"; readonly at: RowAt; readonly field?: string }
  /** A line for the reader, which a screen reader says. */
  | { readonly does: "say"; readonly text: string };

/** Sends what the reader does up to the leaf. */
export function tellLeaf(from: EventTarget, detail: LeafAct): void {
  from.dispatchEvent(new CustomEvent<LeafAct>("leaf", { detail, bubbles: true, composed: true }));
}
