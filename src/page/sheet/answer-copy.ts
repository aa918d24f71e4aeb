import type { AnswerTable } from "../../questions/answer.ts";

/** An answer to be taken elsewhere: its sentence, its numbers as they are shown, its drawing. */
export interface AnswerCopy {
  readonly sentence: string;
  readonly table: AnswerTable;
  readonly picture: Promise<Blob>;
}

/** Puts an answer on the clipboard as text, as a table for a document, and as a picture. */
export async function copyAnswer({ sentence, table, picture }: AnswerCopy): Promise<void> {
  const item = new ClipboardItem({
    "text/plain": new Blob([answerText(sentence, table)], { type: "text/plain" }),
    "text/html": new Blob([answerHtml(sentence, table)], { type: "text/html" }),
    "image/png": picture,
  });
  await navigator.clipboard.write([item]);
}

/** The sentence, and below it the table with its columns parted by tabs. */
export function answerText(sentence: string, table: AnswerTable): string {
  const rows = rowsOf(table).map((row) => row.map(oneLine).join("\t"));
  return [sentence, ...(rows.length > 0 ? ["", ...rows] : [])].join("\n");
}

/** Made of elements with texts, so that nothing in a text becomes markup. */
function answerHtml(sentence: string, table: AnswerTable): string {
  const paragraph = document.createElement("p");
  paragraph.textContent = sentence;
  const element = document.createElement("table");
  rowsOf(table).forEach((texts, i) => {
    const row = element.insertRow();
    for (const text of texts) {
      const cell = document.createElement(i === 0 ? "th" : "td");
      cell.textContent = text;
      row.append(cell);
    }
  });
  return paragraph.outerHTML + element.outerHTML;
}

/** Headings and rows, without the columns in which intervals are drawn. */
function rowsOf({ columns, rows }: AnswerTable): readonly (readonly string[])[] {
  if (rows.length === 0) return [];
  const isText = columns.map(({ kind }) => kind !== "mark");
  const headings = columns.map(({ label }) => label);
  return [headings, ...rows.map((row) => row.map(({ text }) => text))].map((row) =>
    row.filter((_, i) => isText[i]),
  );
}

/** What a spreadsheet would take for a formula is a text. */
function oneLine(text: string): string {
  const line = text.replace(/[\t\r\n]+/g, " ");
  return /^[=+\-@]/.test(line) ? `'${line}` : line;
}
