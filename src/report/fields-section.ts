import type { FieldUsed } from "./fields-used.ts";
import { html, type Markup } from "./markup.ts";

/** What the columns of the file mean, as they were read. */
export function fieldsSection(
  fields: readonly FieldUsed[],
  { rowsRead }: { readonly rowsRead: number },
): Markup | undefined {
  if (fields.length === 0) return undefined;
  return html`<section class="fields"><h2 id="fields">What the columns mean</h2>
<table><thead><tr><th scope="col">field</th><th scope="col">heading in the file</th><th scope="col">holds</th>
<th scope="col">meaning</th><th scope="col">missing of ${rowsRead}</th></tr></thead><tbody>${fields.map(
    ({ name, heading, holds, meaning, missing }) =>
      html`<tr><th scope="row">${name.replaceAll("_", " ")}</th><td class="text">${heading}</td>
<td class="text">${holds}</td><td class="text">${meaning}</td><td>${missing}</td></tr>`,
  )}</tbody></table></section>`;
}
