import type { Request } from "./protocol.ts";

/** What the reader does, as it rises from an element to the book, which alone acts on it. */
export type Act =
  | { readonly act: "turn to"; readonly leaf: Leaf }
  /** `enter`: go on to the desk with the keyboard; `walk`: go to the cell with it. */
  | {
      readonly act: "choose";
      readonly cell: string;
      readonly enter?: boolean;
      readonly walk?: boolean;
    }
  | { readonly act: "pick"; readonly cell: string; readonly key: string }
  /** Puts what a cell says on the clipboard. */
  | { readonly act: "copy answer"; readonly cell: string }
  /** Changes the notebook; what could not be done is shown where `at` says. */
  | { readonly act: "change"; readonly request: Request }
  /** Stops a long recalculation, or has it go on. */
  | { readonly act: "hold"; readonly request: { readonly ask: "stop" | "go on" } }
  /** `sheet`: of a workbook, the one to be read. `further`: cases that came with it, put to them. */
  | {
      readonly act: "open file";
      readonly file: File;
      readonly sheet?: string;
      readonly further?: readonly File[];
    }
  /** Puts aggregates of departments to those that are open. */
  | { readonly act: "open departments"; readonly files: readonly File[] }
  | { readonly act: "list departments" }
  | { readonly act: "save notebook" }
  | { readonly act: "save corrections" }
  | { readonly act: "save report" }
  /** A new cell beside the chosen one, or in a row below it. */
  | { readonly act: "ask another"; readonly row?: "same" | "new" }
  /** Shows lines of the file on the leaf of cases, under the title of the number they stand behind. */
  | { readonly act: "show lines"; readonly lines: readonly number[]; readonly title: string }
  | { readonly act: "print" }
  | { readonly act: "list notebooks" }
  | { readonly act: "look around" }
  | { readonly act: "put ways away" }
  /** Forgets what is kept on this device and opens the first notebook. */
  | { readonly act: "begin again" }
  /** The demo's cases, where the reader's own stay locked. */
  | { readonly act: "open invented cases" }
  /** What is being written into a cell and is not applied yet; without a text, nothing is. */
  | { readonly act: "draft"; readonly cell: string; readonly text?: string }
  | { readonly act: "fold desk"; readonly folded: boolean }
  | { readonly act: "leave desk" }
  | { readonly act: "put away"; readonly notice: number }
  | { readonly act: "darken"; readonly dark: boolean }
  /** Whether the meeting shows the codes of people. */
  | { readonly act: "show codes"; readonly shown: boolean };

export type Leaf = "cases" | "sheet" | "meeting";

/** Sends an act up to the book. */
export function send(from: EventTarget, act: Act): void {
  from.dispatchEvent(new CustomEvent<Act>("act", { detail: act, bubbles: true, composed: true }));
}
