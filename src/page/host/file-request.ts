import type { Request } from "../protocol.ts";
import { holdsCorrections } from "./holds-corrections.ts";
import { holdsAggregates } from "./open-departments.ts";

type FileRequest = Extract<Request, { ask: "open notebook" | "open corrections" | "open cases" }>;

/** What is asked of the host for a file, by its name and by what it holds. */
export async function fileRequest(
  file: File,
  { sheet, hasCases }: { readonly sheet: string | undefined; readonly hasCases: boolean },
): Promise<FileRequest | "aggregates"> {
  const { name } = file;
  if (/\.(md|markdown)$/i.test(name)) {
    return { ask: "open notebook", name, text: await file.text() };
  }
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (holdsCorrections(bytes) && hasCases) {
    return { ask: "open corrections", name, text: await file.text() };
  }
  if (holdsAggregates(name, bytes)) return "aggregates";
  return { ask: "open cases", name, bytes, ...(sheet !== undefined && { sheet }) };
}
