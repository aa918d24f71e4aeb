import { correctionHeadings } from "../../cases/corrections/write-corrections.ts";

/** Whether a file is a list of corrections as the page saves it: those lie over cases. */
export function holdsCorrections(bytes: Uint8Array): boolean {
  const headings = correctionHeadings.join(",");
  // A decoder leaves a mark of UTF-8 at the beginning out.
  const start = new TextDecoder().decode(bytes.subarray(0, headings.length + 4));
  return start.startsWith(headings);
}
