import type { CompletionSource, Completion as EditorCompletion } from "@codemirror/autocomplete";
import type { Completion } from "../../formula/complete.ts";
import type { Host } from "../host/host.ts";

/** Completions from the host, which knows the vocabulary, the cells and the columns. */
export function completionsFrom(host: Host, cell: string): CompletionSource {
  return async (context) => {
    const before = context.matchBefore(/[\p{L}\p{M}\p{Nd}_."]+/u);
    if (before === null && !context.explicit) return null;
    const text = context.state.doc.toString();
    const found = await host.ask({ ask: "complete", cell, text, offset: context.pos });
    if (context.aborted || found.options.length === 0) return null;
    return {
      from: found.from,
      to: found.to,
      options: found.options.map((option) => editorOption(option, text[found.from] === '"')),
      validFor: /^"?[\p{L}\p{M}\p{Nd}_ ]*$/u,
    };
  };
}

/** What is typed in quotes is compared with the choice in its quotes. */
function editorOption(option: Completion, inText: boolean): EditorCompletion {
  return {
    label: inText ? option.apply : option.label,
    displayLabel: option.label,
    apply: option.apply,
    detail: option.meaning,
    type: option.kind,
  };
}
