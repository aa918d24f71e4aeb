import { EditorView } from "@codemirror/view";

/** The editor in the colours and type of the desk. */
export const editorLook = EditorView.theme({
  "&": { fontSize: "0.84375rem", backgroundColor: "transparent", color: "var(--ink)" },
  "&.cm-focused": { outline: "none" },
  ".cm-scroller": { fontFamily: "var(--fixed)", lineHeight: "1.55", maxHeight: "11em" },
  ".cm-content": { padding: "7px 4px", caretColor: "var(--ink)" },
  ".cm-cursor": { borderLeftColor: "var(--ink)" },
  ".word": { color: "var(--word)" },
  ".argument": { color: "var(--caution)" },
  ".keyword": { fontWeight: "600" },
  ".cm-lintRange-error, .cm-lintRange-info": {
    backgroundImage: "none",
    textDecoration: "underline wavy var(--ink) 1px",
    textUnderlineOffset: "4px",
  },
  ".cm-tooltip": {
    backgroundColor: "var(--leaf)",
    color: "var(--ink)",
    border: "1px solid var(--edge-strong)",
    borderRadius: "2px",
    zIndex: "20",
  },
  ".cm-tooltip.cm-tooltip-autocomplete > ul": { fontFamily: "var(--sans)", fontSize: "0.84375rem" },
  ".cm-tooltip-autocomplete ul li[aria-selected]": {
    backgroundColor: "var(--ink)",
    color: "var(--paper)",
  },
  "@media (forced-colors: active)": {
    ".cm-tooltip-autocomplete ul li[aria-selected]": {
      forcedColorAdjust: "none",
      backgroundColor: "Highlight",
      color: "HighlightText",
    },
  },
  ".cm-completionDetail": { fontStyle: "normal", marginLeft: "1.2em", opacity: "0.75" },
  ".cm-completionMatchedText": { textDecoration: "none", fontWeight: "600" },
  ".cm-diagnostic": { borderLeft: "3px solid var(--ink)", fontFamily: "var(--sans)" },
  ".cm-diagnosticAction": {
    backgroundColor: "var(--ink)",
    color: "var(--paper)",
    borderRadius: "2px",
    marginLeft: "8px",
  },
});
