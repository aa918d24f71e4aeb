import { RangeSetBuilder } from "@codemirror/state";
import {
  Decoration,
  type DecorationSet,
  type EditorView,
  ViewPlugin,
  type ViewUpdate,
} from "@codemirror/view";
import type { Token } from "../../formula/piece.ts";
import { tokenize } from "../../formula/tokenize.ts";

const marks = {
  word: Decoration.mark({ class: "word" }),
  argument: Decoration.mark({ class: "argument" }),
  keyword: Decoration.mark({ class: "keyword" }),
} as const;

/** Words that are called, names of arguments and the language's own words, each in its colour. */
export const wordColours = ViewPlugin.fromClass(
  class {
    decorations: DecorationSet;

    constructor(view: EditorView) {
      this.decorations = coloursOf(view.state.doc.toString());
    }

    update(update: ViewUpdate): void {
      if (update.docChanged) this.decorations = coloursOf(update.state.doc.toString());
    }
  },
  { decorations: (plugin) => plugin.decorations },
);

function coloursOf(text: string): DecorationSet {
  const builder = new RangeSetBuilder<Decoration>();
  const { tokens } = tokenize(text);
  tokens.forEach((token, i) => {
    const kind = kindOf(token, tokens[i + 1]);
    if (kind !== undefined) builder.add(token.span.start, token.span.end, marks[kind]);
  });
  return builder.finish();
}

function kindOf(token: Token, next: Token | undefined): keyof typeof marks | undefined {
  if (token.type === "keyword") return "keyword";
  if (token.type !== "name" || next?.type !== "sign") return undefined;
  if (next.text === "(") return "word";
  return next.text === ":" ? "argument" : undefined;
}
