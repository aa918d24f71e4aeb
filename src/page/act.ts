import type { Request } from "./protocol.ts";

/** What the reader does, as it rises from an element to the book, which alone acts on it. */
export type Act =
  | { readonly act: "turn to"; readonly leaf: Leaf }
  /** `enter`: go on to the desk with the keyboard. */
  | { readonly act: "choose"; readonly cell: string; readonly enter?: boolean }
  | { readonly act: "pick"; readonly cell: string; readonly key: string }
  /** Changes the notebook; what could not be done is shown where `at` says. */
  | { readonly act: "change"; readonly request: Request }
  | { readonly act: "open file"; readonly file: File }
  | { readonly act: "save notebook" }
  | { readonly act: "ask another" }
  | { readonly act: "fold desk"; readonly folded: boolean }
  | { readonly act: "leave desk" }
  | { readonly act: "put away"; readonly notice: number }
  | { readonly act: "darken"; readonly dark: boolean };

export type Leaf = "cases" | "sheet" | "meeting";

/** Sends an act up to the book. */
export function send(from: EventTarget, act: Act): void {
  from.dispatchEvent(new CustomEvent<Act>("act", { detail: act, bubbles: true, composed: true }));
}
