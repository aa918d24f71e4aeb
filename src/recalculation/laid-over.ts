import type { Correction } from "../cases/corrections/correction.ts";
import type { FurtherFile } from "../cases/joining/read-case-files.ts";

/** What stands over the first file of cases: the file itself is never changed. */
export interface LaidOver {
  /** Put to the first file, in their order. */
  readonly further: readonly FurtherFile[];
  readonly corrections: readonly Correction[];
  /** The code that stands for a patient; absent: they are numbered. */
  readonly codeOf?: (patient: string) => string;
}

export const nothingLaid: LaidOver = { further: [], corrections: [] };

/** With some of it changed; a part given as undefined is taken away. */
export function withLaid(
  laid: LaidOver,
  change: { readonly [Part in keyof LaidOver]?: LaidOver[Part] | undefined },
): LaidOver {
  const { further, corrections, codeOf } = { ...laid, ...change };
  return {
    further: further ?? [],
    corrections: corrections ?? [],
    ...(codeOf !== undefined && { codeOf }),
  };
}
