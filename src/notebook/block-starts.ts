/**
 * How a line begins a block of a CommonMark document: the patterns of the CommonMark
 * specification 0.31.2, sections 4.1 to 4.6 and 5.1 to 5.2, as far as they decide where prose
 * ends and definitions begin.
 */

/** Level and text of a heading written with `#`, or null. */
export function headingIn(text: string): { readonly level: number; readonly text: string } | null {
  const match = /^ {0,3}(#{1,6})(?:[ \t]+(.*?))?(?:(?:^|[ \t]+)#+)?[ \t]*$/.exec(text);
  if (match?.[1] === undefined) return null;
  const inner = (match[2] ?? "").trim();
  return { level: match[1].length, text: /^#+$/.test(inner) ? "" : inner };
}

/** 1 or 2 where the line underlines the paragraph above it as a heading, else null. */
export function underlineLevel(text: string): 1 | 2 | null {
  const match = /^ {0,3}(=+|-+)[ \t]*$/.exec(text);
  if (match === null) return null;
  return match[1]?.startsWith("=") ? 1 : 2;
}

export function isRule(text: string): boolean {
  return /^ {0,3}([-*_])[ \t]*(?:\1[ \t]*){2,}$/.test(text);
}

export function isListItem(text: string): boolean {
  return /^ {0,3}(?:[-+*]|\d{1,9}[.)])(?:[ \t]|$)/.test(text);
}

export function isQuote(text: string): boolean {
  return /^ {0,3}>/.test(text);
}

/** The run of backticks or tildes that opens a fence, or null. In a list it may stand deeper. */
export function fenceIn(text: string, inList: boolean): string | null {
  const lead = inList ? /^(?:[ \t]*(?:[-+*]|\d{1,9}[.)])?)*[ \t]*/ : /^ {0,3}/;
  const rest = text.slice(lead.exec(text)?.[0].length ?? 0);
  const match = /^(?:(`{3,})[^`]*|(~{3,}).*)$/.exec(rest);
  return match?.[1] ?? match?.[2] ?? null;
}

/** Whether the line closes the fence that `fence` opened. */
export function closesFence(text: string, fence: string, inList: boolean): boolean {
  const run = (inList ? /^[ \t]*([`~]+)[ \t]*$/ : /^ {0,3}([`~]+)[ \t]*$/).exec(text)?.[1];
  return run?.[0] === fence[0] && run !== undefined && run.length >= fence.length;
}

/** The pattern of the line that ends the HTML block this line begins, or null. */
export function htmlEnd(text: string, underParagraph: boolean): RegExp | null {
  for (const [start, end] of htmlBlocks) if (start.test(text)) return end;
  if (underParagraph) return null;
  return anyTag.test(text) ? blankLine : null;
}

const blankLine = /^[ \t]*$/;

const htmlBlocks: readonly (readonly [RegExp, RegExp])[] = [
  [/^ {0,3}<(?:script|pre|style|textarea)(?:[\s>]|$)/i, /<\/(?:script|pre|style|textarea)>/i],
  [/^ {0,3}<!--/, /-->/],
  [/^ {0,3}<\?/, /\?>/],
  [/^ {0,3}<![A-Za-z]/, />/],
  [/^ {0,3}<!\[CDATA\[/, /\]\]>/],
  [
    new RegExp(
      "^ {0,3}</?(?:address|article|aside|base|basefont|blockquote|body|caption|center|col|" +
        "colgroup|dd|details|dialog|dir|div|dl|dt|fieldset|figcaption|figure|footer|form|frame|" +
        "frameset|h[1-6]|head|header|hr|html|iframe|legend|li|link|main|menu|menuitem|nav|" +
        "noframes|ol|optgroup|option|p|param|search|section|summary|table|tbody|td|tfoot|th|" +
        "thead|title|tr|track|ul)(?:[\\s/>]|$)",
      "i",
    ),
    blankLine,
  ],
];

/** One whole opening or closing tag alone on its line. */
const anyTag =
  /^ {0,3}<(?:\/[A-Za-z][\w-]*\s*|[A-Za-z][\w-]*(?:\s+[\w:.-]+(?:\s*=\s*(?:[^\s"'=<>`]+|'[^']*'|"[^"]*"))?)*\s*\/?)>[ \t]*$/;
