import type { CaseReading } from "../case-reading.ts";
import type { Matching } from "../matching.ts";
import { openCases } from "../open-cases.ts";
import type { CaseFile } from "../open-file.ts";
import { readOpenedFiles } from "../read-opened-files.ts";
import type { ReadCasesOptions } from "../reading-options.ts";
import type { FurtherFileKind } from "./join-report.ts";

/** A file to be put together with those before it. */
export interface FurtherFile extends CaseFile {
  readonly as: FurtherFileKind;
  /** Where its headings stand for other fields than those of the first file. */
  readonly matching?: Matching;
}

/**
 * Reads several files as one table of cases: the first, and further ones laid over it in their
 * order. The checks see the whole. What each brought is in `joins`; of each row, `lines` and
 * `fileOf` say where it first stood. A name that comes twice has a number added to it. Never throws.
 */
export function readCaseFiles(
  first: CaseFile,
  further: readonly FurtherFile[],
  options: ReadCasesOptions = {},
): CaseReading {
  const names = distinctNames([first.name, ...further.map(({ name }) => name)]);
  const opened = further.map(({ as, matching = options.matching, ...rest }, i) => {
    const file = { ...rest, name: names[i + 1]! };
    return { as, matching, opened: openCases(file, matching) };
  });
  return readOpenedFiles(openCases(first, options.matching), opened, options);
}

function distinctNames(names: readonly string[]): readonly string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    let distinct = name;
    for (let n = 2; taken.has(distinct); n++) distinct = `${name} (${n})`;
    taken.add(distinct);
    return distinct;
  });
}
