import type { ReportInput } from "../../report/report-input.ts";
import { drawPng } from "../sheet/draw-png.ts";

/** What a report can be saved as. */
export type ReportForm = "page" | "slides" | "everything";

export const reportForms: readonly ReportForm[] = ["page", "slides", "everything"];

/**
 * The report as one file. What writes it is read from the page only when it is first asked for: the
 * writer of slides is larger than the sheet.
 */
export async function reportFile(form: ReportForm, input: ReportInput): Promise<Blob> {
  switch (form) {
    case "page": {
      const { reportPage } = await import("../../report/report-page.ts");
      return new Blob([await reportPage(input)], { type: "text/html" });
    }
    case "slides": {
      const { slidesOf } = await import("../../report/slides/slides-of.ts");
      return asBlob(await slidesOf(input, drawPng), presentation);
    }
    case "everything": {
      const { everythingZip } = await import("../../report/files/report-files.ts");
      return asBlob(await everythingZip(input, drawPng), "application/zip");
    }
  }
}

const endings = { page: ".html", slides: ".pptx", everything: ".zip" } as const;

/** "demo report.html", "demo report to share.html", after the notebook. */
export function reportFileName(notebook: string, form: ReportForm, isShared: boolean): string {
  const stem = notebook.replace(/\.(md|markdown)$/i, "");
  const what = form === "slides" ? "slides" : "report";
  return `${stem} ${what}${isShared ? " to share" : ""}${endings[form]}`;
}

const presentation = "application/vnd.openxmlformats-officedocument.presentationml.presentation";

function asBlob(bytes: Uint8Array, type: string): Blob {
  return new Blob([bytes as Uint8Array<ArrayBuffer>], { type });
}
