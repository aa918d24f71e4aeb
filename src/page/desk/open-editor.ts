import { autocompletion, closeBrackets, completionKeymap } from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap, insertNewline } from "@codemirror/commands";
import { type ChangeSpec, EditorState, type Extension } from "@codemirror/state";
import { EditorView, keymap } from "@codemirror/view";
import type { Problem } from "../../problem/problem.ts";
import type { Host } from "../host/host.ts";
import { completionsFrom } from "./editor-completions.ts";
import { faultsFrom } from "./editor-faults.ts";
import { editorLook } from "./editor-look.ts";
import { wordColours } from "./word-colours.ts";

export interface EditorPlace {
  readonly ground: HTMLElement;
  /** The shadow root that takes the editor's styles. */
  readonly root: ShadowRoot;
  readonly host: Host;
  readonly label: string;
  /** The text as it stands, at once and again with its faults when they are known. */
  readonly typed: (text: string, problems: readonly Problem[]) => void;
  readonly apply: (text: string) => void;
  readonly escape: () => void;
}

export interface OpenedEditor {
  /** Shows the working of a cell; of the same cell, only what differs is written anew. */
  show(cell: string, working: string): void;
  focus(): void;
  destroy(): void;
}

/** An editor of workings: completion, colours, faults underlined with their remedies. */
export function openEditor(place: EditorPlace): OpenedEditor {
  let shown = "";
  const view = new EditorView({ parent: place.ground, root: place.root });
  const stateOf = (cell: string, working: string) =>
    EditorState.create({ doc: working, extensions: extensionsFor(cell, place) });
  return {
    show(cell, working) {
      const before = view.state.doc.toString();
      if (shown !== cell) view.setState(stateOf(cell, working));
      else if (before !== working) view.dispatch({ changes: difference(before, working) });
      shown = cell;
    },
    focus() {
      view.focus();
      view.dispatch({ selection: { anchor: view.state.doc.length } });
    },
    destroy: () => view.destroy(),
  };
}

/** The stretch in which two texts differ, so that the cursor stays where it can. */
function difference(before: string, after: string): ChangeSpec {
  const most = Math.min(before.length, after.length);
  let from = 0;
  while (from < most && before[from] === after[from]) from++;
  let rest = 0;
  while (rest < most - from && before.at(-1 - rest) === after.at(-1 - rest)) rest++;
  return { from, to: before.length - rest, insert: after.slice(from, after.length - rest) };
}

function extensionsFor(cell: string, place: EditorPlace): Extension {
  return [
    keys(place),
    history(),
    closeBrackets(),
    autocompletion({ override: [completionsFrom(place.host, cell)], icons: false }),
    keymap.of([...historyKeymap, ...defaultKeymap]),
    wordColours,
    faultsFrom(place.host, cell, place.typed),
    EditorView.lineWrapping,
    EditorView.contentAttributes.of({ "aria-label": place.label, spellcheck: "false" }),
    EditorView.updateListener.of((update) => {
      if (update.docChanged) place.typed(update.state.doc.toString(), []);
    }),
    editorLook,
  ];
}

/** Behind the keys of an open list of completions, before all others. */
function keys(place: EditorPlace): Extension {
  const apply = (view: EditorView) => {
    place.apply(view.state.doc.toString());
    return true;
  };
  const leave = () => {
    place.escape();
    return true;
  };
  return [
    keymap.of(completionKeymap),
    keymap.of([
      { key: "Mod-Enter", run: apply },
      { key: "Shift-Enter", run: insertNewline },
      { key: "Enter", run: apply },
      { key: "Escape", run: leave },
    ]),
  ];
}
