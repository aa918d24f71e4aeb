import type { ReportedCell } from "../../report/report-input.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import type { CellView } from "../protocol.ts";
import { pngOf } from "./draw-png.ts";

/** How much larger than on the page a copied chart is. */
const pictureScale = 2;

/**
 * Puts what a cell says on the clipboard: of an answer its sentence, table and cautions as text and
 * as HTML, and its chart as a picture, as they stand in the report; of a value its words. Gives what
 * is to be said of it. It must begin at a press of the reader's: only then does a browser allow it.
 */
export async function copyFinding(host: Host, { name, answer, plain }: CellView): Promise<string> {
  if (answer === undefined && plain === undefined) return labels.nothingToCopy(name);
  try {
    if (answer === undefined) await navigator.clipboard.writeText(plain ?? "");
    else await navigator.clipboard.write([itemOf(host, name, answer.chart !== undefined)]);
    if (answer === undefined) return labels.copiedWords(name);
    return labels.copiedCell(name, answer.chart !== undefined);
  } catch (error) {
    // A browser may refuse the clipboard to a page from disk.
    if (error instanceof DOMException) return labels.copyRefused;
    throw error;
  }
}

/** Its kinds are named at once; what they hold may come a moment later. */
function itemOf(host: Host, cell: string, hasPicture: boolean): ClipboardItem {
  const copied = host.ask({ ask: "finding", cell }).then(copyOf);
  const blob = (type: string, text: (of: Awaited<typeof copied>) => string) =>
    copied.then((of) => new Blob([text(of)], { type }));
  const picture = () => copied.then(({ svg = "" }) => pngOf(svg, pictureScale));
  return new ClipboardItem({
    "text/plain": blob("text/plain", ({ text }) => text),
    "text/html": blob("text/html", ({ html }) => html),
    ...(hasPicture && { "image/png": picture() }),
  });
}

async function copyOf(cell: ReportedCell | null) {
  const { copyOfFinding } = await import("../../report/copy-of-finding.ts");
  const copied = cell === null ? undefined : await copyOfFinding(cell);
  if (copied === undefined) throw new Error("the cell has no answer any more");
  return copied;
}
