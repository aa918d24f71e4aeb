/**
 * HTML as text, safe by construction: every value put into a template is escaped unless it is
 * markup already. Nothing from a file or a notebook becomes a tag.
 */
export class Markup {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

type Part = string | number | Markup | readonly Part[] | undefined;

export function html(strings: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  const filled = strings.map((text, position) => text + rendered(parts[position]));
  return new Markup(filled.join(""));
}

function rendered(part: Part): string {
  if (part === undefined) return "";
  if (part instanceof Markup) return part.text;
  if (typeof part === "object") return part.map(rendered).join("");
  return escapeText(String(part));
}

export function escapeText(text: string): string {
  return text
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;")
    .replace(/'/g, "&#39;");
}
