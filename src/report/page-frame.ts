import { html, Markup } from "./markup.ts";
import { reportFonts } from "./report-fonts.ts";
import { reportStyle } from "./report-style.ts";

/** A page that needs nothing else: its style and faces in itself, and nothing it may load. */
export function pageFrame(title: string, body: Markup): string {
  const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width">
<title>${title}</title>
<style>${new Markup(reportFonts)}
${new Markup(reportStyle)}</style>
</head>
<body>
${body}
</body>
</html>
`;
  return page.text;
}
